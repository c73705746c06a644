package tallyback.phrase;

/**
 * Cuts the text of a grammar into its signs, words, quoted tokens and tags, and leaves out blanks
 * and comments.
 *
 * <p>Thread rule: used by one reader.
 */
final class JsgfScanner {

  enum Kind {
    WORD,
    QUOTED,
    TAG,
    SIGN,
    END
  }

  /**
   * One token.
   *
   * @param text the word, the text between quotes or braces without its escapes, or the sign
   * @param line where it begins, counted from 1
   */
  record Token(Kind kind, String text, int line) {

    boolean is(String sign) {
      return kind == Kind.SIGN && text.equals(sign);
    }

    boolean isWord(String word) {
      return kind == Kind.WORD && text.equals(word);
    }

    String described() {
      return switch (kind) {
        case WORD, SIGN -> "'" + text + "'";
        case QUOTED -> '"' + text + '"';
        case TAG -> "{" + text + "}";
        case END -> "the end of the file";
      };
    }
  }

  private static final String SIGNS = ";=|*+<>()[]/{}\"";

  private static final String COMMENT_START = "/*";

  private final String text;
  private int at;
  private int line = 1;
  private Token ahead;

  JsgfScanner(String text) {
    this.text = text.startsWith("\uFEFF") ? text.substring(1) : text;
    this.ahead = scan();
  }

  Token peek() {
    return ahead;
  }

  Token next() {
    Token token = ahead;
    ahead = scan();
    return token;
  }

  /** Goes on after the next semicolon, or to the end. */
  void skipStatement() {
    while (ahead.kind() != Kind.END && !ahead.is(";")) {
      next();
    }
    if (ahead.is(";")) {
      next();
    }
  }

  private Token scan() {
    skipBlanksAndComments();
    if (at >= text.length()) {
      return new Token(Kind.END, "", line);
    }
    if (text.startsWith(COMMENT_START, at)) {
      Token unclosed = new Token(Kind.SIGN, COMMENT_START, line);
      advanceTo(text.length());
      return unclosed;
    }
    char first = text.charAt(at);
    if (first == '"') {
      return enclosed(Kind.QUOTED, '"');
    }
    if (first == '{') {
      return enclosed(Kind.TAG, '}');
    }
    if (SIGNS.indexOf(first) >= 0) {
      return sign(String.valueOf(first));
    }
    int from = at;
    while (at < text.length() && !endsWord(text.charAt(at))) {
      at++;
    }
    return new Token(Kind.WORD, text.substring(from, at), line);
  }

  private static boolean endsWord(char c) {
    return Character.isWhitespace(c) || SIGNS.indexOf(c) >= 0;
  }

  /**
   * A quoted token or a tag, within one line; a backslash takes the next character as it is.
   * Otherwise a sign, for the reader to refuse.
   */
  private Token enclosed(Kind kind, char closing) {
    StringBuilder inside = new StringBuilder();
    int i = at + 1;
    while (i < text.length() && text.charAt(i) != '\n') {
      char c = text.charAt(i);
      if (c == closing) {
        at = i + 1;
        return new Token(kind, inside.toString().strip(), line);
      }
      boolean escaped = c == '\\' && i + 1 < text.length() && text.charAt(i + 1) != '\n';
      inside.append(escaped ? text.charAt(i + 1) : c);
      i += escaped ? 2 : 1;
    }
    return sign(text.substring(at, at + 1));
  }

  private Token sign(String sign) {
    at += sign.length();
    return new Token(Kind.SIGN, sign, line);
  }

  private void skipBlanksAndComments() {
    while (at < text.length()) {
      if (Character.isWhitespace(text.charAt(at))) {
        advanceTo(at + 1);
      } else if (text.startsWith("//", at)) {
        int end = text.indexOf('\n', at);
        advanceTo(end < 0 ? text.length() : end);
      } else if (text.startsWith(COMMENT_START, at) && text.indexOf("*/", at + 2) >= 0) {
        advanceTo(text.indexOf("*/", at + 2) + 2);
      } else {
        return;
      }
    }
  }

  private void advanceTo(int target) {
    for (; at < target; at++) {
      if (text.charAt(at) == '\n') {
        line++;
      }
    }
  }
}
