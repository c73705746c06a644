package tallyback.speech.sphinx;

import edu.cmu.sphinx.decoder.pruner.SimplePruner;
import edu.cmu.sphinx.decoder.scorer.AcousticScorer;
import edu.cmu.sphinx.decoder.scorer.SimpleAcousticScorer;
import edu.cmu.sphinx.decoder.search.PartitionActiveListFactory;
import edu.cmu.sphinx.decoder.search.SimpleBreadthFirstSearchManager;
import edu.cmu.sphinx.decoder.search.Token;
import edu.cmu.sphinx.frontend.BaseDataProcessor;
import edu.cmu.sphinx.frontend.Data;
import edu.cmu.sphinx.frontend.DataEndSignal;
import edu.cmu.sphinx.frontend.DataStartSignal;
import edu.cmu.sphinx.linguist.Linguist;
import edu.cmu.sphinx.linguist.SearchGraph;
import edu.cmu.sphinx.linguist.SearchState;
import edu.cmu.sphinx.result.Result;
import edu.cmu.sphinx.util.props.PropertySheet;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * The library's beam search, set up once for one search graph and run over frames that are already
 * made.
 *
 * <p>Thread rule: belongs to its recogniser's owner.
 */
final class Search {

  private final FrameReplay replay = new FrameReplay();
  private final Manager manager;

  Search(SearchGraph graph, double relativeBeam, int maxActiveStates) {
    manager =
        new Manager(
            new ReadyGraph(graph),
            new SimpleAcousticScorer(replay, null),
            new PartitionActiveListFactory(maxActiveStates, relativeBeam));
    manager.allocate();
  }

  /**
   * The best path through the graph that explains all frames and ends where the graph allows an
   * end.
   *
   * @return its last token, or nothing when no path reached an end
   */
  Optional<Token> best(List<TiedMixtures.Frame> frames) {
    replay.restart(frames);
    manager.startRecognition();
    Result result = manager.recognize(frames.size() + 1);
    manager.stopRecognition();
    manager.forget();
    if (result == null || !result.isFinal()) {
      return Optional.empty();
    }
    return result.getResultTokens().stream()
        .filter(Token::isFinal)
        .max(Comparator.comparingDouble(Token::getScore));
  }

  /**
   * The library's search, with the best token of a state kept at the state: the map it is looked up
   * in otherwise took a fifth of the whole time.
   */
  private static final class Manager extends SimpleBreadthFirstSearchManager {

    private final List<SearchPoint> reached = new ArrayList<>();
    private long frame = 1;
    private long firstFrameOfClip = 1;

    Manager(
        Linguist linguist, AcousticScorer scorer, PartitionActiveListFactory activeListFactory) {
      super(linguist, new SimplePruner(), scorer, activeListFactory, false, 0, 0, false);
    }

    @Override
    protected void growBranches() {
      frame++;
      super.growBranches();
    }

    @Override
    protected @Nullable Token getBestToken(SearchState state) {
      SearchPoint point = (SearchPoint) state;
      return point.frameOfBestWay == frame ? point.bestWay : null;
    }

    @Override
    protected @Nullable Token setBestToken(Token token, SearchState state) {
      SearchPoint point = (SearchPoint) state;
      if (point.frameOfBestWay < firstFrameOfClip) {
        reached.add(point);
      }
      point.frameOfBestWay = frame;
      point.bestWay = token;
      return null;
    }

    /** Lets go of the paths of a clip: the graph lives on, and would keep them all in memory. */
    void forget() {
      reached.forEach(point -> point.bestWay = null);
      reached.clear();
      frame++;
      firstFrameOfClip = frame;
    }
  }

  /** Gives frames to the scorer as if they came out of a front end. */
  private static final class FrameReplay extends BaseDataProcessor {
    private List<TiedMixtures.Frame> frames = List.of();
    private int next;

    void restart(List<TiedMixtures.Frame> again) {
      frames = again;
      next = -1;
    }

    @Override
    public @Nullable Data getData() {
      if (next < 0) {
        next = 0;
        return new DataStartSignal(tallyback.audio.Clip.SAMPLE_RATE_HZ);
      }
      if (next < frames.size()) {
        return frames.get(next++);
      }
      return next++ == frames.size() ? new DataEndSignal(0) : null;
    }
  }

  /** A search graph that needs no compiling. */
  private record ReadyGraph(SearchGraph graph) implements Linguist {
    @Override
    public SearchGraph getSearchGraph() {
      return graph;
    }

    @Override
    public void startRecognition() {}

    @Override
    public void stopRecognition() {}

    @Override
    public void allocate() {}

    @Override
    public void deallocate() {}

    @Override
    public void newProperties(PropertySheet sheet) {}
  }
}
