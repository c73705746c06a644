package tallyback.speech.sphinx;

import edu.cmu.sphinx.linguist.acoustic.Unit;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import tallyback.phrase.Lexicon;
import tallyback.speech.UnknownWords;

/** Pronunciations as phones of the acoustic model. Refuses words that have none. */
final class Pronouncer {

  private final Lexicon lexicon;
  private final PhoneModels models;
  private final Map<String, List<List<Unit>>> cache = new HashMap<>();

  Pronouncer(Lexicon lexicon, PhoneModels models) {
    this.lexicon = lexicon;
    this.models = models;
  }

  /** Refuses the words without a pronunciation, all at once. */
  static void requireKnown(Lexicon lexicon, Collection<String> words) {
    TreeSet<String> unknown = new TreeSet<>(words);
    unknown.removeIf(lexicon::knows);
    if (!unknown.isEmpty()) {
      throw new UnknownWords(unknown);
    }
  }

  List<List<Unit>> phones(String word) {
    return cache.computeIfAbsent(
        word,
        key -> {
          List<String> sayings = lexicon.pronunciations(key);
          if (sayings.isEmpty()) {
            throw new UnknownWords(List.of(key));
          }
          return sayings.stream().map(this::parse).toList();
        });
  }

  private List<Unit> parse(String phones) {
    return List.of(phones.split(" ")).stream().map(models::phone).toList();
  }
}
