package tallyback.voice.freetts;

import com.sun.speech.freetts.en.us.CMULexicon;
import com.sun.speech.freetts.lexicon.LetterToSound;
import com.sun.speech.freetts.lexicon.LetterToSoundImpl;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URL;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * How a word is most likely said, by the library's letter-to-sound rules for American English (A.
 * W. Black, K. Lenzo, V. Pagel, <cite>Issues in building general letter to sound rules</cite>,
 * 1998). Loads in some milliseconds, without the voice. Thread-safe: loaded once, only read
 * afterwards.
 */
final class LetterSounds {

  private static final String RULES = "cmulex_lts.bin";

  /** The library's vowels without stress that the dictionary of the recogniser writes otherwise. */
  private static final Map<String, String> OTHERWISE = Map.of("AX", "AH", "AXR", "ER");

  private static final class Rules {
    private static final LetterToSound LOADED = load();

    private static LetterToSound load() {
      URL rules = CMULexicon.class.getResource(RULES);
      if (rules == null) {
        throw new IllegalStateException("the jar lacks " + RULES + "; build it again");
      }
      try {
        return new LetterToSoundImpl(rules, true);
      } catch (IOException e) {
        throw new UncheckedIOException("can't read " + RULES + " from the jar", e);
      }
    }
  }

  private LetterSounds() {}

  /** ARPAbet phones without stress, or empty for what has no letters from a to z. */
  static Optional<String> of(String word) {
    String letters = word.replaceAll("[^a-z]", "");
    if (letters.isEmpty()) {
      return Optional.empty();
    }
    List<String> phones = new ArrayList<>();
    for (String phone : Rules.LOADED.getPhones(letters, null)) {
      String plain = phone.replaceAll("[0-9]", "").toUpperCase(Locale.ROOT);
      phones.add(OTHERWISE.getOrDefault(plain, plain));
    }
    return phones.isEmpty() ? Optional.empty() : Optional.of(String.join(" ", phones));
  }
}
