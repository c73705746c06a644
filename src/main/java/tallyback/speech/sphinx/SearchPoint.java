package tallyback.speech.sphinx;

import edu.cmu.sphinx.decoder.search.Token;
import edu.cmu.sphinx.linguist.SearchState;
import edu.cmu.sphinx.linguist.SearchStateArc;
import edu.cmu.sphinx.linguist.WordSequence;
import org.jspecify.annotations.Nullable;

/** A state of the search graph that is compared by identity; each exists once in its graph. */
abstract class SearchPoint implements SearchState {

  static final SearchStateArc[] NO_ARCS = {};

  /** The best way here in one frame, for {@link Search} alone, which would look it up in a map. */
  @Nullable Token bestWay;

  /** The frame of {@link #bestWay}, counted over all clips of the search. */
  long frameOfBestWay;

  @Override
  public boolean isEmitting() {
    return false;
  }

  @Override
  public boolean isFinal() {
    return false;
  }

  @Override
  public String getSignature() {
    return toPrettyString();
  }

  @Override
  public @Nullable WordSequence getWordHistory() {
    return null;
  }

  @Override
  public @Nullable Object getLexState() {
    return null;
  }

  @Override
  public int getOrder() {
    return 0;
  }

  /**
   * A way into a state. The library calls the price of taking it insertion probability; nothing
   * here has a language score.
   */
  record Step(SearchState state, float insertion) implements SearchStateArc {

    @Override
    public SearchState getState() {
      return state;
    }

    @Override
    public float getProbability() {
      return insertion;
    }

    @Override
    public float getLanguageProbability() {
      return 0;
    }

    @Override
    public float getInsertionProbability() {
      return insertion;
    }
  }

  /** A way into a word, of which the price may change from clip to clip. */
  record WordStep(SearchState state, WordPrice price) implements SearchStateArc {

    @Override
    public SearchState getState() {
      return state;
    }

    @Override
    public float getProbability() {
      return price.now();
    }

    @Override
    public float getLanguageProbability() {
      return 0;
    }

    @Override
    public float getInsertionProbability() {
      return price.now();
    }
  }
}
