package tallyback.speech.sphinx;

import edu.cmu.sphinx.linguist.acoustic.HMM;
import edu.cmu.sphinx.linguist.acoustic.HMMState;
import edu.cmu.sphinx.linguist.acoustic.HMMStateArc;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * The states of some phone models in flat arrays, for searches of our own over few phones.
 *
 * @param senones the senone of each state
 * @param firsts the first state of each phone
 * @param fromState from a state
 * @param toState to a state of the same phone
 * @param costs what that costs
 * @param endState from a state to the end of its phone
 * @param endCosts what that costs
 */
@SuppressWarnings("ArrayRecordComponent") // never compared, and read in inner loops
record PhoneStates(
    int[] senones,
    int[] firsts,
    int[] fromState,
    int[] toState,
    float[] costs,
    int[] endState,
    float[] endCosts) {

  /** Lays the models of phones out in a row. */
  static final class Collector {
    private final List<Integer> senones = new ArrayList<>();
    private final List<Integer> firsts = new ArrayList<>();
    private final List<Integer> from = new ArrayList<>();
    private final List<Integer> to = new ArrayList<>();
    private final List<Float> costs = new ArrayList<>();
    private final List<Integer> ends = new ArrayList<>();
    private final List<Float> endCosts = new ArrayList<>();

    void add(HMM phone) {
      firsts.add(senones.size());
      number(phone.getInitialState(), new HashMap<>());
    }

    private int number(HMMState state, Map<HMMState, Integer> known) {
      Integer number = known.get(state);
      if (number != null) {
        return number;
      }
      int fresh = senones.size();
      known.put(state, fresh);
      senones.add((int) state.getMixtureId());
      for (HMMStateArc arc : state.getSuccessors()) {
        if (arc.getHMMState().isEmitting()) {
          int target = number(arc.getHMMState(), known);
          from.add(fresh);
          to.add(target);
          costs.add(arc.getLogProbability());
        } else {
          ends.add(fresh);
          endCosts.add(arc.getLogProbability());
        }
      }
      return fresh;
    }

    PhoneStates states() {
      return new PhoneStates(
          ints(senones),
          ints(firsts),
          ints(from),
          ints(to),
          floats(costs),
          ints(ends),
          floats(endCosts));
    }
  }

  private static int[] ints(List<Integer> values) {
    return values.stream().mapToInt(Integer::intValue).toArray();
  }

  private static float[] floats(List<Float> values) {
    float[] all = new float[values.size()];
    for (int i = 0; i < all.length; i++) {
      all[i] = values.get(i);
    }
    return all;
  }
}
