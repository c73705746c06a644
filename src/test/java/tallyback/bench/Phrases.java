package tallyback.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import tallyback.phrase.WordGraph;

/** A small algebra of phrases, from which both a {@link WordGraph} and random examples are made. */
sealed interface Phrases {

  record Words(List<String> words) implements Phrases {}

  record Choice(List<Phrases> options) implements Phrases {}

  record Sequence(List<Phrases> parts) implements Phrases {}

  /** Words separated by blanks. */
  static Phrases say(String text) {
    return new Words(List.of(text.split(" ")));
  }

  /** One of the given texts. */
  static Phrases anyOf(String... texts) {
    return new Choice(List.of(texts).stream().map(Phrases::say).toList());
  }

  static Phrases either(Phrases... options) {
    return new Choice(List.of(options));
  }

  static Phrases row(Phrases... parts) {
    return new Sequence(List.of(parts));
  }

  static Phrases maybe(Phrases part) {
    return new Choice(List.of(new Words(List.of()), part));
  }

  /** Compiles the phrases. */
  default WordGraph graph() {
    WordGraph.Builder builder = new WordGraph.Builder();
    builder.accept(attach(builder, builder.start()));
    return builder.build();
  }

  private int attach(WordGraph.Builder builder, int from) {
    if (this instanceof Words said) {
      int state = from;
      for (String word : said.words()) {
        int next = builder.newState();
        builder.arc(state, word, next);
        state = next;
      }
      return state;
    }
    if (this instanceof Choice choice) {
      int end = builder.newState();
      for (Phrases option : choice.options()) {
        builder.emptyArc(option.attach(builder, from), end);
      }
      return end;
    }
    int state = from;
    for (Phrases part : ((Sequence) this).parts()) {
      state = part.attach(builder, state);
    }
    return state;
  }

  /** One phrase, every choice taken with equal chance. */
  default List<String> example(Random random) {
    List<String> words = new ArrayList<>();
    addExample(random, words);
    return words;
  }

  private void addExample(Random random, List<String> words) {
    if (this instanceof Words said) {
      words.addAll(said.words());
    } else if (this instanceof Choice choice) {
      choice.options().get(random.nextInt(choice.options().size())).addExample(random, words);
    } else {
      ((Sequence) this).parts().forEach(part -> part.addExample(random, words));
    }
  }
}
