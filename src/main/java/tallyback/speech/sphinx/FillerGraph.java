package tallyback.speech.sphinx;

import edu.cmu.sphinx.linguist.SearchGraph;
import edu.cmu.sphinx.linguist.SearchState;
import edu.cmu.sphinx.linguist.SearchStateArc;
import edu.cmu.sphinx.linguist.acoustic.HMM;
import edu.cmu.sphinx.linguist.acoustic.HMMPosition;
import edu.cmu.sphinx.linguist.acoustic.Unit;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;

/**
 * Any phones in any order: what a clip is worth as sound, whatever was said. Speech outside the
 * grammar is explained better by this loop than by the grammar (I. Bazzi, J. Glass, <cite>Modeling
 * out-of-vocabulary words for robust speech recognition</cite>, ICSLP 2000).
 *
 * <p>Thread rule: belongs to its recogniser's owner.
 */
final class FillerGraph extends SearchPoint implements SearchGraph {

  private final SearchStateArc[] phones;

  /**
   * Makes the loop.
   *
   * @param phoneInsertion price of each phone, in the library's log base
   */
  FillerGraph(PhoneModels models, float phoneInsertion) {
    List<SearchStateArc> entries = new ArrayList<>();
    SearchStateArc again = new Step(new PhoneEnd(), 0);
    for (Iterator<Unit> units = models.model().getContextIndependentUnitIterator();
        units.hasNext(); ) {
      HMM hmm = models.model().lookupNearestHMM(units.next(), HMMPosition.UNDEFINED, false);
      entries.add(
          new Step(
              new Segment(hmm, false, models.mixtures(), () -> List.of(again)).first(),
              phoneInsertion));
    }
    phones = entries.toArray(NO_ARCS);
  }

  @Override
  public SearchState getInitialState() {
    return this;
  }

  @Override
  public int getNumStateOrder() {
    return 1;
  }

  @Override
  public boolean getWordTokenFirst() {
    return false;
  }

  @Override
  public SearchStateArc[] getSuccessors() {
    return phones;
  }

  @Override
  public String toPrettyString() {
    return "filler";
  }

  /** After any phone the clip may end, or another phone follow. */
  private final class PhoneEnd extends SearchPoint {
    @Override
    public boolean isFinal() {
      return true;
    }

    @Override
    public SearchStateArc[] getSuccessors() {
      return phones;
    }

    @Override
    public String toPrettyString() {
      return "phone end";
    }
  }
}
