package tallyback.speech.sphinx;

import edu.cmu.sphinx.linguist.acoustic.HMM;
import edu.cmu.sphinx.linguist.acoustic.HMMPosition;
import edu.cmu.sphinx.linguist.acoustic.HMMState;
import edu.cmu.sphinx.linguist.acoustic.HMMStateArc;
import edu.cmu.sphinx.linguist.acoustic.Unit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;

/**
 * What a clip is worth as any phones in any order, pauses included: the garbage model that a
 * reading must beat.
 *
 * <p>Each phone may follow each, at the same price, so one best phone end a frame is all that the
 * next phones need to know: the search of A. J. Viterbi (1967) over some 130 states, without a
 * beam. The library's search follows every pair of phones instead, which took a quarter of the
 * hearing.
 *
 * <p>Thread rule: belongs to its recogniser's owner.
 */
final class Filler {

  private static final float NEVER = -1e30f;

  private final TiedMixtures mixtures;
  private final float phoneInsertion;
  private final int[] senones;

  /** The first state of each phone. */
  private final int[] firsts;

  /** From a state to another of the same phone, and what it costs. */
  private final int[] fromState;

  private final int[] toState;
  private final float[] costs;

  /** From a state to the end of its phone. */
  private final int[] endState;

  private final float[] endCosts;

  /**
   * Makes the loop of all phones of the model.
   *
   * @param phoneInsertion price of each phone, in the library's log base
   */
  Filler(PhoneModels models, float phoneInsertion) {
    mixtures = models.mixtures();
    this.phoneInsertion = phoneInsertion;
    Collector collector = new Collector();
    for (Iterator<Unit> units = models.model().getContextIndependentUnitIterator();
        units.hasNext(); ) {
      collector.add(models.model().lookupNearestHMM(units.next(), HMMPosition.UNDEFINED, false));
    }
    senones = ints(collector.senones);
    firsts = ints(collector.firsts);
    fromState = ints(collector.from);
    toState = ints(collector.to);
    costs = floats(collector.costs);
    endState = ints(collector.ends);
    endCosts = floats(collector.endCosts);
  }

  /**
   * The best row of phones.
   *
   * @param frames at least one
   * @return its score as it grows; without words
   */
  BestPath best(List<TiedMixtures.Frame> frames) {
    return walk(frames, new int[frames.size()]);
  }

  /**
   * Which senone of the best row of phones each frame belongs to.
   *
   * @param frames at least one
   * @return one senone for each frame
   */
  int[] alignment(List<TiedMixtures.Frame> frames) {
    int[] aligned = new int[frames.size()];
    walk(frames, aligned);
    return aligned;
  }

  /** The best row of phones; the senone of each frame goes into what is given for it. */
  private BestPath walk(List<TiedMixtures.Frame> frames, int[] aligned) {
    int count = frames.size();
    float[][] scores = new float[count][];
    // A state came from another state of its phone, or, marked -1, from the phone end before.
    int[][] origins = new int[count][senones.length];
    int[] ends = new int[count];
    float[] before = new float[senones.length];
    Arrays.fill(before, NEVER);
    float entry = 0;
    for (int frame = 0; frame < count; frame++) {
      float[] now = new float[senones.length];
      Arrays.fill(now, NEVER);
      for (int first : firsts) {
        now[first] = entry + phoneInsertion;
        origins[frame][first] = -1;
      }
      for (int arc = 0; arc < costs.length; arc++) {
        float score = before[fromState[arc]] + costs[arc];
        if (score > now[toState[arc]]) {
          now[toState[arc]] = score;
          origins[frame][toState[arc]] = fromState[arc];
        }
      }
      for (int state = 0; state < now.length; state++) {
        now[state] += mixtures.score(frames.get(frame), senones[state]);
      }
      entry = NEVER;
      for (int arc = 0; arc < endCosts.length; arc++) {
        float score = now[endState[arc]] + endCosts[arc];
        if (score > entry) {
          entry = score;
          ends[frame] = endState[arc];
        }
      }
      scores[frame] = now;
      before = now;
    }
    return new BestPath(List.of(), alongBest(scores, origins, ends, aligned), entry);
  }

  private float[] alongBest(float[][] scores, int[][] origins, int[] ends, int[] aligned) {
    float[] after = new float[scores.length];
    int state = ends[scores.length - 1];
    for (int frame = scores.length - 1; frame >= 0; frame--) {
      after[frame] = scores[frame][state];
      aligned[frame] = senones[state];
      int origin = origins[frame][state];
      state = origin >= 0 || frame == 0 ? Math.max(origin, 0) : ends[frame - 1];
    }
    return after;
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

  /** Lays the models of all phones out in a row. */
  private static final class Collector {
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
  }
}
