package tallyback.speech.sphinx;

import edu.cmu.sphinx.linguist.acoustic.HMMPosition;
import edu.cmu.sphinx.linguist.acoustic.Unit;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;

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
    PhoneStates.Collector collector = new PhoneStates.Collector();
    for (Iterator<Unit> units = models.model().getContextIndependentUnitIterator();
        units.hasNext(); ) {
      collector.add(models.model().lookupNearestHMM(units.next(), HMMPosition.UNDEFINED, false));
    }
    PhoneStates states = collector.states();
    senones = states.senones();
    firsts = states.firsts();
    fromState = states.fromState();
    toState = states.toState();
    costs = states.costs();
    endState = states.endState();
    endCosts = states.endCosts();
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

  /**
   * What the beginnings of a clip are worth.
   *
   * @param frames the whole clip
   * @return by frame, and for the end of the clip: the score of the best row of phones over all
   *     frames before it
   */
  float[] upTo(List<TiedMixtures.Frame> frames) {
    float[] upTo = new float[frames.size() + 1];
    float[] before = new float[senones.length];
    Arrays.fill(before, NEVER);
    for (int frame = 0; frame < frames.size(); frame++) {
      float[] now = new float[senones.length];
      Arrays.fill(now, NEVER);
      for (int first : firsts) {
        now[first] = upTo[frame] + phoneInsertion;
      }
      for (int arc = 0; arc < costs.length; arc++) {
        now[toState[arc]] = Math.max(now[toState[arc]], before[fromState[arc]] + costs[arc]);
      }
      addScores(now, frames.get(frame));
      upTo[frame + 1] = NEVER;
      for (int arc = 0; arc < endCosts.length; arc++) {
        upTo[frame + 1] = Math.max(upTo[frame + 1], now[endState[arc]] + endCosts[arc]);
      }
      before = now;
    }
    return upTo;
  }

  /**
   * What the rests of a clip are worth: the same search from the end.
   *
   * @param frames the whole clip
   * @return by frame, and for the end of the clip: the score of the best row of phones over it and
   *     all frames behind it
   */
  float[] from(List<TiedMixtures.Frame> frames) {
    float[] from = new float[frames.size() + 1];
    float[] after = new float[senones.length];
    Arrays.fill(after, NEVER);
    for (int frame = frames.size() - 1; frame >= 0; frame--) {
      float[] now = new float[senones.length];
      Arrays.fill(now, NEVER);
      for (int arc = 0; arc < endCosts.length; arc++) {
        now[endState[arc]] = Math.max(now[endState[arc]], endCosts[arc] + from[frame + 1]);
      }
      for (int arc = 0; arc < costs.length; arc++) {
        now[fromState[arc]] = Math.max(now[fromState[arc]], costs[arc] + after[toState[arc]]);
      }
      addScores(now, frames.get(frame));
      from[frame] = NEVER;
      for (int first : firsts) {
        from[frame] = Math.max(from[frame], now[first] + phoneInsertion);
      }
      after = now;
    }
    return from;
  }

  private void addScores(float[] states, TiedMixtures.Frame frame) {
    for (int state = 0; state < states.length; state++) {
      states[state] += mixtures.score(frame, senones[state]);
    }
  }
}
