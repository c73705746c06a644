package tallyback.phrase;

/**
 * One piece of what a phrase says once the grammar has read it: a tag of the grammar, or a word
 * that was kept.
 */
sealed interface Piece {

  /**
   * A tag of the grammar.
   *
   * @param text what stood between the braces
   */
  record Tag(String text) implements Piece {
    /** What a tag that keeps the words after it ends in. */
    static final String OPENS_SPAN = "<";

    /** The tag after which words are no longer kept. */
    static final String CLOSES_SPAN = ">";

    boolean opensSpan() {
      return text.endsWith(OPENS_SPAN);
    }

    boolean closesSpan() {
      return text.equals(CLOSES_SPAN);
    }

    @Override
    public String toString() {
      return "{" + text + "}";
    }
  }

  /**
   * A word that was said inside a span whose words are kept.
   *
   * @param text the word
   */
  record Word(String text) implements Piece {
    @Override
    public String toString() {
      return text;
    }
  }
}
