package tallyback.app;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.audio.LevelMeter;
import tallyback.phrase.Lexicon;
import tallyback.speech.adapt.Lesson;
import tallyback.speech.adapt.TaughtVoice;
import tallyback.speech.adapt.VoiceProfile;

/**
 * The voices that may be listened for. Immutable.
 *
 * @param profiles what was learned of each, by name
 * @param first whose voice is expected at first; null for anybody's
 * @param notices which voices can't be listened for, and why, one line each
 * @param recorded what was said by the one expected at first when it was taught
 */
public record KnownVoices(
    Map<String, VoiceProfile> profiles,
    @Nullable String first,
    List<String> notices,
    List<VoiceShelf.Recorded> recorded) {

  /** Speech that stands so far above the noise is as good as without any. */
  private static final double CLEAN_DB = 25;

  /** Copies them. */
  public KnownVoices {
    profiles = Map.copyOf(profiles);
    notices = List.copyOf(notices);
    recorded = List.copyOf(recorded);
  }

  /** None: anybody's voice is listened for. */
  public static KnownVoices none() {
    return new KnownVoices(Map.of(), null, List.of(), List.of());
  }

  /**
   * Those on a shelf.
   *
   * @param shelf the shelf
   * @param first whose voice is expected at first; null for anybody's
   * @throws WrongUse if that one was not taught, or its file is damaged
   */
  public static KnownVoices on(VoiceShelf shelf, @Nullable String first) {
    Map<String, VoiceProfile> profiles = new LinkedHashMap<>();
    List<String> notices = new ArrayList<>();
    String wanted = first == null ? null : VoiceShelf.name(first);
    for (String name : shelf.names()) {
      try {
        Optional<TaughtVoice> taught = shelf.taught(name);
        taught.ifPresent(voice -> profiles.put(name, voice.profile()));
      } catch (WrongUse damaged) {
        if (name.equals(wanted)) {
          throw damaged;
        }
        notices.addAll(damaged.lines());
      }
    }
    if (wanted != null && !profiles.containsKey(wanted)) {
      throw new WrongUse(
          "--voice "
              + wanted
              + ": "
              + (shelf.has(wanted)
                  ? "nothing was learned of it yet"
                  : "there is no voice of that name" + others(profiles))
              + "; teach --voice "
              + wanted
              + " teaches it");
    }
    return new KnownVoices(
        profiles, wanted, notices, wanted == null ? List.of() : shelf.recorded(wanted));
  }

  /**
   * Those that were learned with an acoustic model.
   *
   * @throws WrongUse if the one expected at first was learned with another
   */
  KnownVoices learnedWith(String model) {
    Map<String, VoiceProfile> fitting = new LinkedHashMap<>();
    profiles.forEach(
        (name, profile) -> {
          if (profile.model().equals(model)) {
            fitting.put(name, profile);
          }
        });
    if (first != null && !fitting.containsKey(first)) {
      throw new WrongUse(
          "--voice "
              + first
              + ": it was taught to another version of Tallyback, which listens otherwise; teach"
              + " --voice "
              + first
              + " --again learns it again from what was recorded");
    }
    return new KnownVoices(fitting, first, notices, recorded);
  }

  /**
   * What the voice expected at first said without noise when it was taught.
   *
   * @param lexicon what has a word it doesn't know is left out
   * @param most so many at most
   * @return the recordings; one that can't be read any more is left out
   */
  List<Lesson> lessonsOfFirst(Lexicon lexicon, int most) {
    List<Lesson> lessons = new ArrayList<>();
    for (VoiceShelf.Recorded each : recorded) {
      if (lessons.size() < most && each.words().stream().allMatch(lexicon::knows)) {
        try {
          Lesson lesson = each.lesson();
          if (LevelMeter.measure(lesson.clip()).snrDb() >= CLEAN_DB) {
            lessons.add(lesson);
          }
        } catch (IOException e) {
          // There are others, and bundled ones.
        }
      }
    }
    return lessons;
  }

  private static String others(Map<String, VoiceProfile> profiles) {
    return profiles.isEmpty()
        ? ""
        : ", but " + String.join(", ", profiles.keySet().stream().sorted().toList());
  }
}
