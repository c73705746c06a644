package tallyback.speech.sphinx;

import edu.cmu.sphinx.decoder.search.Token;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the search found, read off its chain of tokens: words with their frames, and the score as it
 * grew frame by frame.
 *
 * <p>Thread rule: immutable.
 */
final class BestPath {

  private final List<Span> words;
  private final float[] scoreAfterFrame;
  private final float score;

  BestPath(List<Span> words, float[] scoreAfterFrame, float score) {
    this.words = List.copyOf(words);
    this.scoreAfterFrame = scoreAfterFrame;
    this.score = score;
  }

  /**
   * A word and the frames it covers.
   *
   * @param text the word
   * @param firstFrame its first frame
   * @param endFrame the frame after its last
   */
  record Span(String text, int firstFrame, int endFrame) {}

  static BestPath of(Token last) {
    return read(chain(last), last.getScore());
  }

  /** Which senone of the path each frame belongs to. */
  static int[] senones(Token last) {
    return chain(last).stream()
        .filter(Token::isEmitting)
        .mapToInt(token -> ((Segment.Sound) token.getSearchState()).senone())
        .toArray();
  }

  private static List<Token> chain(Token last) {
    List<Token> chain = new ArrayList<>();
    for (@Nullable Token token = last; token != null; token = token.getPredecessor()) {
      chain.add(token);
    }
    Collections.reverse(chain);
    return chain;
  }

  private static BestPath read(List<Token> chain, float score) {
    List<Span> words = new ArrayList<>();
    float[] scores = new float[chain.size()];
    int frame = 0;
    int wordStart = -1;
    for (Token token : chain) {
      if (token.isEmitting()) {
        boolean pause = token.getSearchState() instanceof Segment.Sound sound && sound.isPause();
        if (!pause && wordStart < 0) {
          wordStart = frame;
        }
        scores[frame++] = token.getScore();
      } else if (token.getSearchState() instanceof EntryGraph.WordEnd word) {
        words.add(new Span(word.text(), wordStart, frame));
        wordStart = -1;
      }
    }
    return new BestPath(words, Arrays.copyOf(scores, frame), score);
  }

  /** The words in order. */
  List<Span> words() {
    return words;
  }

  /** The library's log score of the whole path. */
  float score() {
    return score;
  }

  List<String> texts() {
    return words.stream().map(Span::text).toList();
  }

  /** How much the score grew over some frames. */
  float scoreOver(int firstFrame, int endFrame) {
    float before = firstFrame == 0 ? 0 : scoreAfterFrame[firstFrame - 1];
    return scoreAfterFrame[endFrame - 1] - before;
  }
}
