package tallyback.phrase;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/**
 * The rules written out as one network of states: every reference replaced by what it stands for,
 * words and tags on arcs. Built as in K. Thompson, <cite>Regular Expression Search
 * Algorithm</cite>, Communications of the ACM 11(6), 1968.
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
  private final int end;
  private final Symbols<String> words;
  private final Symbols<Piece> pieces;
  private final Symbols<Place> places;

  private PhraseNetwork(Builder builder, int end) {
    this.arcs = builder.arcs;
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
    int end = builder.writeOut(book.rule(book.root()), 0);
    if (builder.inSpan) {
      builder.refuse(
          book.rule(book.root()).line(),
          "every span closed at the end of a phrase",
          "one still open",
          "Write {>} where it ends.");
    }
    if (!builder.faults.isEmpty()) {
      throw new UnusableGrammarException(List.copyOf(builder.faults));
    }
    return new PhraseNetwork(builder, end);
  }

  int start() {
    return 0;
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

    /** Where a way ends that cannot be said to its end. */
    private static final int NOWHERE = -1;

    private final RuleBook book;
    private final List<List<Arc>> arcs = new ArrayList<>();
    private final Symbols<String> words = new Symbols<>();
    private final Symbols<Piece> pieces = new Symbols<>();
    private final Symbols<Place> places = new Symbols<>();
    private final Set<GrammarFault> faults = new LinkedHashSet<>();
    private boolean inSpan;
    private JsgfRule rule;
    private int depth;

    private Builder(RuleBook book) {
      this.book = book;
      this.rule = book.rule(book.root());
      newState();
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

    private int writeOut(JsgfRule inner, int from) {
      JsgfRule outer = rule;
      rule = inner;
      depth++;
      if (depth > DEEPEST_RULES) {
        tooLarge("at most " + DEEPEST_RULES + " rules inside each other");
      }
      int to = append(inner.expansion(), from);
      depth--;
      rule = outer;
      return to;
    }

    /**
     * Adds what an expansion says after a state, and gives the state where it ends, or {@link
     * #NOWHERE}.
     */
    private int append(Expansion expansion, int from) {
      if (expansion instanceof Expansion.Word word) {
        int piece = inSpan ? pieces.numberOf(new Piece.Word(word.text())) : NONE;
        return arc(from, words.numberOf(word.text()), piece, word.line());
      }
      if (expansion instanceof Expansion.Tag tag) {
        return appendTag(tag, from);
      }
      if (expansion instanceof Expansion.Reference reference) {
        return writeOut(book.rule(reference.rule()), from);
      }
      if (expansion instanceof Expansion.Sequence sequence) {
        return appendSequence(sequence, from);
      }
      if (expansion instanceof Expansion.Choice choice) {
        return appendChoice(choice, from);
      }
      if (expansion instanceof Expansion.Maybe maybe) {
        return appendMaybe(maybe, from);
      }
      if (expansion instanceof Expansion.Repeat repeat) {
        return appendRepeat(repeat, from);
      }
      return expansion instanceof Expansion.Nothing ? from : NOWHERE;
    }

    private int arc(int from, int word, int piece, int line) {
      int to = newState();
      link(from, to, word, piece, line);
      return to;
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

    private int appendTag(Expansion.Tag tag, int from) {
      Piece.Tag piece = new Piece.Tag(tag.text());
      if (piece.opensSpan()) {
        if (inSpan) {
          refuse(
              tag.line(),
              "{>} before the next span opens",
              piece + " inside another span",
              "Close the outer span first.");
        }
        inSpan = true;
      } else if (piece.closesSpan()) {
        if (!inSpan) {
          refuse(
              tag.line(),
              "a tag such as {number<} before {>}",
              "{>} without one",
              "Open the span, or take the {>} away.");
        }
        inSpan = false;
      }
      return arc(from, NONE, pieces.numberOf(piece), tag.line());
    }

    private int appendSequence(Expansion.Sequence sequence, int from) {
      int at = from;
      for (Expansion part : sequence.parts()) {
        at = append(part, at);
        if (at == NOWHERE) {
          return NOWHERE;
        }
      }
      return at;
    }

    private int appendChoice(Expansion.Choice choice, int from) {
      boolean before = inSpan;
      int join = NOWHERE;
      boolean after = before;
      for (Expansion branch : choice.branches()) {
        inSpan = before;
        int to = append(branch, from);
        if (to != NOWHERE) {
          if (join == NOWHERE) {
            join = newState();
            after = inSpan;
          }
          requireSameSpan(
              after, branch.line(), "a span to open or close in all alternatives or in none");
          skip(to, join, branch.line());
        }
      }
      inSpan = after;
      return join;
    }

    private int appendMaybe(Expansion.Maybe maybe, int from) {
      boolean before = inSpan;
      int to = append(maybe.body(), from);
      if (to == NOWHERE) {
        inSpan = before;
        return from;
      }
      requireSameSpan(before, maybe.line(), "a span to open and close inside an option");
      skip(from, to, maybe.line());
      return to;
    }

    private int appendRepeat(Expansion.Repeat repeat, int from) {
      boolean before = inSpan;
      int entry = newState();
      skip(from, entry, repeat.line());
      int exit = append(repeat.body(), entry);
      if (exit == NOWHERE) {
        inSpan = before;
        return repeat.atLeastOnce() ? NOWHERE : from;
      }
      requireSameSpan(before, repeat.line(), "a span to open and close inside a repeat");
      skip(exit, entry, repeat.line());
      int end = newState();
      skip(exit, end, repeat.line());
      if (!repeat.atLeastOnce()) {
        skip(entry, end, repeat.line());
      }
      return end;
    }

    private void requireSameSpan(boolean expected, int line, String rule) {
      if (inSpan != expected) {
        refuse(
            line, rule, "one that does not", "Put the opening tag and {>} into the same branch.");
        inSpan = expected;
      }
    }
  }
}
