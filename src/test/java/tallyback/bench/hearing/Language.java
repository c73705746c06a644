package tallyback.bench.hearing;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.function.Function;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tallyback.phrase.EntryGrammar;
import tallyback.phrase.Examples;
import tallyback.phrase.JsgfGrammar;
import tallyback.phrase.WordGraph;
import tallyback.plan.PlanReader;
import tallyback.plan.PlanReading;
import tallyback.speech.CmuLexicon;
import tallyback.speech.Meaning;

/**
 * What may be said, and what amounts to the same.
 *
 * @param graph everything that may be said
 * @param meaning which phrases mean the same
 * @param phrases makes phrases with a seed; null when it can't
 * @param examples many of them, as a second recogniser learns them
 * @param printed what another recogniser printed as a phrase
 */
record Language(
    WordGraph graph,
    Meaning meaning,
    @Nullable Function<Random, Supplier<List<String>>> phrases,
    Supplier<List<List<String>>> examples,
    Function<String, Optional<List<String>>> printed) {

  /** Reads a plan (its entries, compared by what they mean) or a JSGF file (words compared). */
  static Language read(Path file) throws IOException {
    if (!file.toString().endsWith(".yaml")) {
      WordGraph graph = JsgfGrammar.read(file);
      return new Language(
          graph,
          Meaning.literal(),
          null,
          () -> graph.words().stream().map(List::of).toList(),
          printed -> Optional.empty());
    }
    PlanReading plan = PlanReader.read(file);
    EntryGrammar grammar =
        EntryGrammar.of(
            plan.plan().orElseThrow(() -> new IllegalArgumentException(plan.faults().toString())));
    return new Language(
        grammar.entries(),
        grammar::sense,
        random -> {
          Examples examples = new Examples(grammar, random);
          return examples::next;
        },
        grammar::examples,
        grammar.printedWords(CmuLexicon.load())::phrase);
  }
}
