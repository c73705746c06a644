package tallyback.speech.adapt;

import java.util.List;

/**
 * What was learned of a voice. Immutable.
 *
 * @param model fingerprint of the acoustic model it was learned with; it is of no use with another
 * @param maps where the means of each kind of feature lie, in the model's order
 * @param shifts how much further those lie that were heard, in the same order
 */
public record VoiceProfile(String model, List<MeanMap> maps, List<MeanShifts> shifts) {

  /** Copies the lists, which must be of one shape. */
  public VoiceProfile {
    maps = List.copyOf(maps);
    shifts = List.copyOf(shifts);
    if (maps.size() != shifts.size()) {
      throw new IllegalArgumentException(
          "expected shifts for " + maps.size() + " maps, found " + shifts.size());
    }
    for (int i = 0; i < maps.size(); i++) {
      if (maps.get(i).size() != shifts.get(i).size()) {
        throw new IllegalArgumentException(
            "expected shifts of " + maps.get(i).size() + ", found " + shifts.get(i).size());
      }
    }
  }
}
