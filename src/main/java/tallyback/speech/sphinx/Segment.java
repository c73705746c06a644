package tallyback.speech.sphinx;

import edu.cmu.sphinx.decoder.scorer.ScoreProvider;
import edu.cmu.sphinx.frontend.Data;
import edu.cmu.sphinx.linguist.HMMSearchState;
import edu.cmu.sphinx.linguist.SearchStateArc;
import edu.cmu.sphinx.linguist.acoustic.HMM;
import edu.cmu.sphinx.linguist.acoustic.HMMState;
import edu.cmu.sphinx.linguist.acoustic.HMMStateArc;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * One phone in its place in a search graph: its states in a row, and what may follow. Made when
 * first reached, then kept.
 */
final class Segment {

  private final HMM hmm;
  private final boolean pause;
  private final TiedMixtures mixtures;
  private final Supplier<List<SearchStateArc>> exits;
  private final Map<HMMState, Sound> sounds = new HashMap<>();
  private SearchStateArc @Nullable [] exitArcs;

  Segment(HMM hmm, boolean pause, TiedMixtures mixtures, Supplier<List<SearchStateArc>> exits) {
    this.hmm = hmm;
    this.pause = pause;
    this.mixtures = mixtures;
    this.exits = exits;
  }

  Sound first() {
    return sound(hmm.getInitialState());
  }

  private Sound sound(HMMState state) {
    Sound known = sounds.get(state);
    if (known == null) {
      known = new Sound(state);
      sounds.put(state, known);
    }
    return known;
  }

  private SearchStateArc[] exitArcs() {
    SearchStateArc[] known = exitArcs;
    if (known == null) {
      known = exits.get().toArray(SearchPoint.NO_ARCS);
      exitArcs = known;
    }
    return known;
  }

  /** One state of the phone's model. */
  final class Sound extends SearchPoint implements HMMSearchState, ScoreProvider {
    private final HMMState state;
    private final boolean emitting;
    private final int senone;
    private SearchStateArc @Nullable [] successors;

    private Sound(HMMState state) {
      this.state = state;
      emitting = state.isEmitting();
      senone = emitting ? (int) state.getMixtureId() : -1;
    }

    boolean isPause() {
      return pause;
    }

    int senone() {
      return senone;
    }

    @Override
    public HMMState getHMMState() {
      return state;
    }

    @Override
    public boolean isEmitting() {
      return emitting;
    }

    @Override
    public SearchStateArc[] getSuccessors() {
      if (!emitting) {
        return exitArcs();
      }
      SearchStateArc[] known = successors;
      if (known == null) {
        HMMStateArc[] arcs = state.getSuccessors();
        known = new SearchStateArc[arcs.length];
        for (int i = 0; i < arcs.length; i++) {
          known[i] = new Step(sound(arcs[i].getHMMState()), arcs[i].getLogProbability());
        }
        successors = known;
      }
      return known;
    }

    @Override
    public float getScore(Data frame) {
      return mixtures.score((TiedMixtures.Frame) frame, senone);
    }

    @Override
    public float[] getComponentScore(Data frame) {
      return state.calculateComponentScore(frame);
    }

    @Override
    public String toPrettyString() {
      return state.toString();
    }
  }
}
