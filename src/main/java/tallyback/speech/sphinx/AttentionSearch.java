package tallyback.speech.sphinx;

import edu.cmu.sphinx.linguist.acoustic.HMM;
import edu.cmu.sphinx.linguist.acoustic.HMMPosition;
import edu.cmu.sphinx.linguist.acoustic.Unit;
import edu.cmu.sphinx.linguist.acoustic.tiedstate.SenoneHMM;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tallyback.phrase.WordGraph;

/**
 * Looks for one word near the beginning of a clip, whatever stands before and behind it: the word
 * between two rows of any phones, against any phones all through. The filler on both sides is
 * worked out once for all places where the word may begin and end, so that one pass over the word's
 * few states finds the best of them.
 *
 * <p>A word between fillers, judged by its likelihood ratio to the filler: R. C. Rose, D. B. Paul,
 * <cite>A hidden Markov model based keyword recognition system</cite>, ICASSP 1990.
 *
 * <p>Thread rule: belongs to its recogniser's owner.
 */
final class AttentionSearch {

  /**
   * The word begins no later: what the cutter leaves in front of speech, a breath, and a click of
   * its own. A word further in is spoken of, not called out.
   */
  private static final int LATEST_START_FRAMES = 70;

  /** No word lasts longer. */
  private static final int LONGEST_WORD_FRAMES = 150;

  private static final float NEVER = -1e30f;

  private final PhoneModels models;
  private final Filler filler;
  private final List<Saying> sayings = new ArrayList<>();

  /**
   * Prepares the search.
   *
   * @param words a graph of single words
   * @throws IllegalArgumentException if it holds a longer phrase
   */
  AttentionSearch(WordGraph words, Pronouncer pronouncer, PhoneModels models, Filler filler) {
    this.models = models;
    this.filler = filler;
    for (WordGraph.Arc arc : words.arcs(words.start())) {
      if (!words.isFinal(arc.target()) || !words.arcs(arc.target()).isEmpty()) {
        throw new IllegalArgumentException(
            "attention: expected single words, found a phrase that goes on after " + arc.word());
      }
      for (List<Unit> phones : pronouncer.phones(arc.word())) {
        sayings.add(saying(arc.word(), phones));
      }
    }
  }

  /**
   * The word where it fits best.
   *
   * @param word the word
   * @param firstFrame its first frame
   * @param endFrame the frame after its last
   * @param overFiller how much more likely the clip is with the word than without, in the library's
   *     log base
   * @param filler what the clip is worth without, in the library's log base
   */
  record Found(String word, int firstFrame, int endFrame, float overFiller, float filler) {}

  /** Where the word fits best; empty when the clip is too short for it. */
  Optional<Found> best(List<TiedMixtures.Frame> frames) {
    float[] before = filler.upTo(frames);
    float[] behind = filler.from(frames);
    return sayings.stream()
        .map(saying -> best(saying, frames, before, behind))
        .flatMap(Optional::stream)
        .max(Comparator.comparingDouble(Found::overFiller));
  }

  private Optional<Found> best(
      Saying saying, List<TiedMixtures.Frame> frames, float[] before, float[] behind) {
    Pass pass = new Pass(saying);
    int last = Math.min(frames.size(), LATEST_START_FRAMES + LONGEST_WORD_FRAMES);
    float without = before[frames.size()];
    Found best = null;
    for (int frame = 0; frame < last; frame++) {
      pass.step(frames.get(frame), frame, frame <= LATEST_START_FRAMES ? before[frame] : NEVER);
      float overFiller = pass.endScore() + behind[frame + 1] - without;
      if (pass.endScore() > NEVER / 2 && (best == null || overFiller > best.overFiller())) {
        best = new Found(saying.word(), pass.endStart(), frame + 1, overFiller, without);
      }
    }
    return Optional.ofNullable(best);
  }

  private Saying saying(String word, List<Unit> phones) {
    PhoneStates.Collector collector = new PhoneStates.Collector();
    List<int[]> places = new ArrayList<>();
    int next = 0;
    for (int place = 0; place < phones.size(); place++) {
      List<HMM> sounds = sounds(phones, place);
      sounds.forEach(collector::add);
      places.add(new int[] {next, next + sounds.size()});
      next += sounds.size();
    }
    return new Saying(word, collector.states(), places);
  }

  /**
   * How one phone of the word may sound: before it is silence, behind it whatever comes; most of
   * that gives the same model.
   */
  private List<HMM> sounds(List<Unit> phones, int place) {
    Unit left = place == 0 ? models.silence() : phones.get(place - 1);
    if (place < phones.size() - 1) {
      HMMPosition position = place == 0 ? HMMPosition.BEGIN : HMMPosition.INTERNAL;
      return List.of(models.triphone(phones.get(place), left, phones.get(place + 1), position));
    }
    HMMPosition position = place == 0 ? HMMPosition.SINGLE : HMMPosition.END;
    Map<Object, HMM> distinct = new LinkedHashMap<>();
    for (Iterator<Unit> rights = models.model().getContextIndependentUnitIterator();
        rights.hasNext(); ) {
      Unit right = rights.next();
      if (!right.isFiller() || right.equals(models.silence())) {
        HMM sound = models.triphone(phones.get(place), left, right, position);
        distinct.putIfAbsent(
            sound instanceof SenoneHMM tied ? tied.getSenoneSequence() : sound, sound);
      }
    }
    return List.copyOf(distinct.values());
  }

  /**
   * A word as states.
   *
   * @param places for each phone of the word which models stand for it: the first, and the one
   *     after the last
   */
  private record Saying(String word, PhoneStates states, List<int[]> places) {}

  /** One pass over the states of a word, frame by frame, which keeps where each path began. */
  private final class Pass {
    private final Saying saying;
    private final PhoneStates states;
    private final int[] placeOfState;
    private float[] scores;
    private int[] starts;

    /** By place: the best path through the place's phone that ends with the frame at hand. */
    private float[] endScores;

    private int[] endStarts;

    Pass(Saying saying) {
      this.saying = saying;
      states = saying.states();
      scores = new float[states.senones().length];
      starts = new int[scores.length];
      endScores = new float[saying.places().size()];
      endStarts = new int[endScores.length];
      Arrays.fill(scores, NEVER);
      Arrays.fill(endScores, NEVER);
      placeOfState = placesOfStates();
    }

    private int[] placesOfStates() {
      int[] places = new int[states.senones().length];
      for (int place = 0; place < saying.places().size(); place++) {
        for (int phone = saying.places().get(place)[0];
            phone < saying.places().get(place)[1];
            phone++) {
          int end = phone + 1 < states.firsts().length ? states.firsts()[phone + 1] : places.length;
          Arrays.fill(places, states.firsts()[phone], end, place);
        }
      }
      return places;
    }

    void step(TiedMixtures.Frame frame, int frameNumber, float entry) {
      float[] now = new float[scores.length];
      int[] nowStarts = new int[scores.length];
      Arrays.fill(now, NEVER);
      for (int first : states.firsts()) {
        int place = placeOfState[first];
        now[first] = place == 0 ? entry : endScores[place - 1];
        nowStarts[first] = place == 0 ? frameNumber : endStarts[place - 1];
      }
      for (int arc = 0; arc < states.costs().length; arc++) {
        int from = states.fromState()[arc];
        int to = states.toState()[arc];
        if (scores[from] + states.costs()[arc] > now[to]) {
          now[to] = scores[from] + states.costs()[arc];
          nowStarts[to] = starts[from];
        }
      }
      for (int state = 0; state < now.length; state++) {
        now[state] += models.mixtures().score(frame, states.senones()[state]);
      }
      scores = now;
      starts = nowStarts;
      end();
    }

    private void end() {
      Arrays.fill(endScores, NEVER);
      for (int arc = 0; arc < states.endCosts().length; arc++) {
        int state = states.endState()[arc];
        int place = placeOfState[state];
        float score = scores[state] + states.endCosts()[arc];
        if (score > endScores[place]) {
          endScores[place] = score;
          endStarts[place] = starts[state];
        }
      }
    }

    float endScore() {
      return endScores[endScores.length - 1];
    }

    int endStart() {
      return endStarts[endStarts.length - 1];
    }
  }
}
