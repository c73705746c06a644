package tallyback.phrase;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * The rules written out as one network of states: every reference replaced by what it stands for,
 * words and tags on arcs. Built as in K. Thompson, <cite>Regular Expression Search
 * Algorithm</cite>, Communications of the ACM 11(6), 1968.
 *
 * <p>It is built from the end of the phrase to its beginning, and what two places say before the
 * same rest is built once. So a list of names that is referred to in twelve places is not written
 * out twelve times, unless what follows differs.
 *
 * <p>Whether a word is kept is decided here, while writing out: a word inside a span that a tag
 * opened carries itself as a piece of output, any other word carries nothing.
 *
 * <p>Thread rule: immutable once built.
 */
final class PhraseNetwork {

  /** No word, or no piece, on an arc. */
  static final int NONE = -1;

  /**
   * One arc.
   *
   * @param target the state it leads to
   * @param word the number of the word said on it, or {@link #NONE}
   * @param piece the number of the piece it gives, or {@link #NONE}
   * @param place the number of the place in the sources that it comes from
   */
  record Arc(int target, int word, int piece, int place) {}

  /** Where in the sources something stands. */
  record Place(String source, int line, String rule) {
    @Override
    public String toString() {
      return source + ":" + line + " <" + rule + ">";
    }
  }

  /**
   * Far more than a plan of hundreds of items needs; a grammar beyond it would neither fit nor be
   * heard in time.
   */
  private static final int MOST_STATES = 500_000;

  private static final int DEEPEST_RULES = 200;

  private final List<List<Arc>> arcs;
  private final int start;
  private final int end;
  private final Symbols<String> words;
  private final Symbols<Piece> pieces;
  private final Symbols<Place> places;

  private PhraseNetwork(Builder builder, int start, int end) {
    this.arcs = builder.arcs;
    this.start = start;
    this.end = end;
    this.words = builder.words;
    this.pieces = builder.pieces;
    this.places = builder.places;
  }

  /**
   * Writes out the rules of a book without faults.
   *
   * @throws UnusableGrammarException if spans are not closed where they were opened, or the grammar
   *     is too large
   */
  static PhraseNetwork of(RuleBook book) {
    Builder builder = new Builder(book);
    int end = builder.newState();
    int start = builder.before(book.rule(book.root()), end);
    if (builder.inSpan) {
      builder.refuse(
          book.rule(book.root()).line(),
          "a tag such as {number<} before {>}",
          "{>} without one",
          "Open the span, or take the {>} away.");
    }
    if (!builder.faults.isEmpty()) {
      throw new UnusableGrammarException(List.copyOf(builder.faults));
    }
    return new PhraseNetwork(builder, start == Builder.NOWHERE ? builder.newState() : start, end);
  }

  int start() {
    return start;
  }

  int end() {
    return end;
  }

  int stateCount() {
    return arcs.size();
  }

  List<Arc> arcs(int state) {
    return arcs.get(state);
  }

  Symbols<String> words() {
    return words;
  }

  Symbols<Piece> pieces() {
    return pieces;
  }

  Place place(int number) {
    return places.get(number);
  }

  private static final class Builder {

    /** Where a way begins that cannot be said to its end. */
    private static final int NOWHERE = -1;

    private final RuleBook book;
    private final List<List<Arc>> arcs = new ArrayList<>();
    private final Symbols<String> words = new Symbols<>();
    private final Symbols<Piece> pieces = new Symbols<>();
    private final Symbols<Place> places = new Symbols<>();
    private final Set<GrammarFault> faults = new LinkedHashSet<>();
    private final Map<Task, Built> done = new HashMap<>();
    private boolean inSpan;
    private JsgfRule rule;
    private int depth;

    private Builder(RuleBook book) {
      this.book = book;
      this.rule = book.rule(book.root());
    }

    private int newState() {
      if (arcs.size() >= MOST_STATES) {
        tooLarge("at most " + MOST_STATES + " states when all rules are written out");
      }
      arcs.add(new ArrayList<>(2));
      return arcs.size() - 1;
    }

    private void tooLarge(String limit) {
      refuse(rule.line(), limit, "more", "Refer to large rules in fewer places.");
      throw new UnusableGrammarException(List.copyOf(faults));
    }

    private void refuse(int line, String expected, String found, String remedy) {
      faults.add(
          new GrammarFault(
              rule.source(), line, expected, found + " in rule <" + rule.name() + ">", remedy));
    }

    private int before(JsgfRule inner, int next) {
      JsgfRule outer = rule;
      rule = inner;
      depth++;
      if (depth > DEEPEST_RULES) {
        tooLarge("at most " + DEEPEST_RULES + " rules inside each other");
      }
      int from = before(inner.expansion(), next);
      depth--;
      rule = outer;
      return from;
    }

    /**
     * The state from which an expansion is said and then what follows the state next; {@link
     * #NOWHERE} when that can't be said.
     */
    private int before(Expansion expansion, int next) {
      Task task = new Task(expansion, next, inSpan);
      Built built = done.get(task);
      if (built == null) {
        built = new Built(build(expansion, next), inSpan);
        done.put(task, built);
      }
      inSpan = built.inSpan();
      return built.from();
    }

    private int build(Expansion expansion, int next) {
      if (expansion instanceof Expansion.Word word) {
        int piece = inSpan ? pieces.numberOf(new Piece.Word(word.text())) : NONE;
        return arc(next, words.numberOf(word.text()), piece, word.line());
      }
      if (expansion instanceof Expansion.Tag tag) {
        return buildTag(tag, next);
      }
      if (expansion instanceof Expansion.Reference reference) {
        return before(book.rule(reference.rule()), next);
      }
      if (expansion instanceof Expansion.Sequence sequence) {
        return buildSequence(sequence, next);
      }
      if (expansion instanceof Expansion.Choice choice) {
        return buildChoice(choice, next);
      }
      if (expansion instanceof Expansion.Maybe maybe) {
        return buildMaybe(maybe, next);
      }
      if (expansion instanceof Expansion.Repeat repeat) {
        return buildRepeat(repeat, next);
      }
      return expansion instanceof Expansion.Nothing ? next : NOWHERE;
    }

    private int arc(int next, int word, int piece, int line) {
      int from = newState();
      link(from, next, word, piece, line);
      return from;
    }

    private void link(int from, int to, int word, int piece, int line) {
      int place = places.numberOf(new Place(rule.source(), line, rule.name()));
      arcs.get(from).add(new Arc(to, word, piece, place));
    }

    private void skip(int from, int to, int line) {
      if (from != to) {
        link(from, to, NONE, NONE, line);
      }
    }

    private int buildTag(Expansion.Tag tag, int next) {
      Piece.Tag piece = new Piece.Tag(tag.text());
      if (piece.opensSpan()) {
        if (!inSpan) {
          refuse(
              tag.line(),
              "every span closed before the next one opens and at the end of a phrase",
              piece + " left open",
              "Write {>} where it ends.");
        }
        inSpan = false;
      } else if (piece.closesSpan()) {
        if (inSpan) {
          refuse(
              tag.line(),
              "a tag such as {number<} before {>}",
              "{>} without one",
              "Open the span, or take the {>} away.");
        }
        inSpan = true;
      }
      return arc(next, NONE, pieces.numberOf(piece), tag.line());
    }

    private int buildSequence(Expansion.Sequence sequence, int next) {
      int at = next;
      for (int i = sequence.parts().size() - 1; i >= 0; i--) {
        at = before(sequence.parts().get(i), at);
        if (at == NOWHERE) {
          return NOWHERE;
        }
      }
      return at;
    }

    private int buildChoice(Expansion.Choice choice, int next) {
      boolean after = inSpan;
      int fork = NOWHERE;
      boolean first = after;
      for (Expansion branch : choice.branches()) {
        inSpan = after;
        int from = before(branch, next);
        if (from != NOWHERE) {
          if (fork == NOWHERE) {
            fork = newState();
            first = inSpan;
          }
          requireSameSpan(
              first, branch.line(), "a span to open or close in all alternatives or in none");
          skip(fork, from, branch.line());
        }
      }
      inSpan = fork == NOWHERE ? after : first;
      return fork;
    }

    private int buildMaybe(Expansion.Maybe maybe, int next) {
      boolean after = inSpan;
      int from = before(maybe.body(), next);
      if (from == NOWHERE) {
        inSpan = after;
        return next;
      }
      requireSameSpan(after, maybe.line(), "a span to open and close inside an option");
      int fork = newState();
      skip(fork, from, maybe.line());
      skip(fork, next, maybe.line());
      return fork;
    }

    private int buildRepeat(Expansion.Repeat repeat, int next) {
      boolean after = inSpan;
      int again = newState();
      skip(again, next, repeat.line());
      int from = before(repeat.body(), again);
      if (from == NOWHERE) {
        inSpan = after;
        return repeat.atLeastOnce() ? NOWHERE : next;
      }
      requireSameSpan(after, repeat.line(), "a span to open and close inside a repeat");
      skip(again, from, repeat.line());
      return repeat.atLeastOnce() ? from : again;
    }

    private void requireSameSpan(boolean expected, int line, String rule) {
      if (inSpan != expected) {
        refuse(
            line, rule, "one that does not", "Put the opening tag and {>} into the same branch.");
        inSpan = expected;
      }
    }

    /** What is to be said before which rest; the same expansion object, not an equal one. */
    private static final class Task {
      private final Expansion expansion;
      private final int next;
      private final boolean inSpan;

      Task(Expansion expansion, int next, boolean inSpan) {
        this.expansion = expansion;
        this.next = next;
        this.inSpan = inSpan;
      }

      @Override
      @SuppressWarnings("ReferenceEquality") // equal text in another rule has another place
      public boolean equals(Object other) {
        return other instanceof Task task
            && task.expansion == expansion
            && task.next == next
            && task.inSpan == inSpan;
      }

      @Override
      public int hashCode() {
        return (System.identityHashCode(expansion) * 31 + next) * 2 + (inSpan ? 1 : 0);
      }
    }

    private record Built(int from, boolean inSpan) {}
  }
}
