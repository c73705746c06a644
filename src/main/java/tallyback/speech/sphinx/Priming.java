package tallyback.speech.sphinx;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.List;
import java.util.Map;
import tallyback.audio.Clip;
import tallyback.phrase.Lexicon;
import tallyback.phrase.WordGraph;

/**
 * The bundled clip that every new recogniser must hear, with the little grammar and lexicon it
 * takes.
 */
final class Priming {

  static final List<String> WORDS = List.of("step", "nine", "done");

  static final WordGraph GRAMMAR =
      WordGraph.ofPhrases(List.of(WORDS, List.of("step", "five", "done"), List.of("stop", "one")));

  private static final Map<String, String> PHONES =
      Map.of(
          "step",
          "S T EH P",
          "stop",
          "S T AA P",
          "five",
          "F AY V",
          "nine",
          "N AY N",
          "one",
          "W AH N",
          "done",
          "D AH N");

  static final Lexicon LEXICON =
      new Lexicon() {
        @Override
        public boolean knows(String word) {
          return PHONES.containsKey(word);
        }

        @Override
        public List<String> pronunciations(String word) {
          String phones = PHONES.get(word);
          return phones == null ? List.of() : List.of(phones);
        }
      };

  private static final String CLIP = "/tallyback/speech/priming.wav";
  private static final int WAV_HEADER_BYTES = 44;

  private Priming() {}

  static Clip clip() {
    try (InputStream in = Priming.class.getResourceAsStream(CLIP)) {
      if (in == null) {
        throw new IllegalStateException("the jar lacks " + CLIP + "; build it again");
      }
      ByteArrayOutputStream bytes = new ByteArrayOutputStream();
      in.transferTo(bytes);
      short[] samples = new short[(bytes.size() - WAV_HEADER_BYTES) / Short.BYTES];
      ByteBuffer.wrap(bytes.toByteArray(), WAV_HEADER_BYTES, samples.length * Short.BYTES)
          .order(ByteOrder.LITTLE_ENDIAN)
          .asShortBuffer()
          .get(samples);
      return new Clip(samples, 0);
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read " + CLIP + " from the jar", e);
    }
  }
}
