package tallyback.phrase;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * Reads grammars in the JSpeech Grammar Format (W3C Note, 5 June 2000): header, grammar name,
 * imports, comments, rules with sequences, alternatives, weights, groups, options, {@code *},
 * {@code +}, tags, references, {@code <NULL>}, {@code <VOID>} and quoted tokens.
 *
 * <p>Three points where the note leaves room or this project is narrower:
 *
 * <ul>
 *   <li>A tag belongs to what stands before it, as in the note. To begin with a tag write {@code
 *       <NULL> {tag}}.
 *   <li>All files share one namespace: a rule is named plainly, {@code <volume>}, whichever file it
 *       stands in. An {@code import} is read and changes nothing.
 *   <li>Words are in lower case. A quoted token is read as the words in it.
 * </ul>
 *
 * <p>A fault inside a rule ends that rule; reading goes on after its semicolon, so that one reading
 * finds all faults.
 *
 * <p>Thread rule: one reader for each reading, used inside {@link #read}; nothing is shared.
 */
final class JsgfReader {

  /** Deeper brackets than anybody writes; more would only exhaust the stack. */
  private static final int DEEPEST_NESTING = 100;

  private static final String HEADER_SHAPE = "'#JSGF V1.0;' as the first line";

  private final String source;
  private final JsgfScanner scanner;
  private final List<JsgfRule> rules = new ArrayList<>();
  private final List<GrammarFault> faults = new ArrayList<>();
  private String grammar = "";
  private int nesting;

  private JsgfReader(String source, String text) {
    this.source = source;
    this.scanner = new JsgfScanner(text);
  }

  /**
   * Reads one file.
   *
   * @param sourceName what to call the file in messages
   * @param text its text
   * @return its rules, and its faults if it has any
   */
  static JsgfFile read(String sourceName, String text) {
    JsgfReader reader = new JsgfReader(sourceName, text);
    reader.readFile();
    return new JsgfFile(sourceName, reader.grammar, reader.rules, reader.faults);
  }

  private void readFile() {
    recovering(this::readHeader);
    recovering(this::readGrammarName);
    while (scanner.peek().kind() != JsgfScanner.Kind.END) {
      recovering(this::readStatement);
    }
  }

  private void recovering(Runnable part) {
    try {
      part.run();
    } catch (Misread misread) {
      faults.add(misread.fault);
      nesting = 0;
      scanner.skipStatement();
    }
  }

  private void readHeader() {
    if (!scanner.peek().isWord("#JSGF")) {
      throw expected(HEADER_SHAPE, "Begin the file with it.");
    }
    scanner.next();
    if (!scanner.peek().isWord("V1.0")) {
      throw expected("version V1.0 of the format", "Only V1.0 is read here.");
    }
    scanner.next();
    for (int parts = 0; parts < 2 && scanner.peek().kind() == JsgfScanner.Kind.WORD; parts++) {
      scanner.next();
    }
    take(";", "at the end of the header");
  }

  private void readGrammarName() {
    if (!scanner.peek().isWord("grammar")) {
      faults.add(
          fault(scanner.peek(), "'grammar NAME;' after the header", "Give the grammar a name."));
      return;
    }
    scanner.next();
    grammar = takeWord("a name for the grammar");
    take(";", "after the grammar's name");
  }

  private void readStatement() {
    if (scanner.peek().isWord("import")) {
      scanner.next();
      takeRuleName();
      take(";", "at the end of the import");
      return;
    }
    boolean isPublic = scanner.peek().isWord("public");
    if (isPublic) {
      scanner.next();
    }
    if (!scanner.peek().is("<")) {
      throw expected(
          "a rule, '<name> = ... ;'", "Begin each rule with its name in angle brackets.");
    }
    readRule(isPublic);
  }

  private void readRule(boolean isPublic) {
    int line = scanner.peek().line();
    String name = takeRuleName();
    if (name.equals("NULL") || name.equals("VOID")) {
      faults.add(
          new GrammarFault(
              source,
              line,
              "a rule name of your own",
              "<" + name + ">",
              "This name is taken by the format; choose another."));
    } else if (name.contains(".")) {
      faults.add(
          new GrammarFault(
              source,
              line,
              "a plain rule name",
              "<" + name + ">",
              "Leave out the dots: all files share one namespace."));
    }
    take("=", "after the name of rule <" + name + ">");
    Expansion expansion = readChoice();
    take(";", "at the end of rule <" + name + ">");
    rules.add(new JsgfRule(name, isPublic, expansion, source, line));
  }

  private Expansion readChoice() {
    int line = scanner.peek().line();
    List<Expansion> branches = new ArrayList<>();
    List<BigDecimal> weights = new ArrayList<>();
    do {
      if (!branches.isEmpty()) {
        scanner.next();
      }
      if (scanner.peek().is("/")) {
        weights.add(readWeight());
      }
      branches.add(readSequence());
    } while (scanner.peek().is("|"));
    if (!weights.isEmpty() && weights.size() != branches.size()) {
      faults.add(
          new GrammarFault(
              source,
              line,
              "a weight on all " + branches.size() + " alternatives or on none",
              weights.size() + " with a weight",
              "Weigh the others too, or take the weights away."));
      weights.clear();
    }
    return branches.size() == 1 ? branches.get(0) : new Expansion.Choice(branches, weights, line);
  }

  private BigDecimal readWeight() {
    scanner.next();
    JsgfScanner.Token token = scanner.peek();
    BigDecimal weight = BigDecimal.ONE;
    try {
      weight = new BigDecimal(token.text());
      if (weight.signum() < 0) {
        throw expected("a weight of 0 or more", "Write it as in '/2.5/'.");
      }
    } catch (NumberFormatException notANumber) {
      throw expected("a weight", "Write it as in '/2.5/'.");
    }
    scanner.next();
    take("/", "after a weight");
    return weight;
  }

  private Expansion readSequence() {
    int line = scanner.peek().line();
    List<Expansion> parts = new ArrayList<>();
    if (scanner.peek().kind() == JsgfScanner.Kind.TAG) {
      JsgfScanner.Token tag = scanner.peek();
      faults.add(
          fault(
              tag,
              "something said before a tag",
              "Write <NULL> {" + tag.text() + "} to begin with a tag."));
      readTags(parts);
    }
    while (beginsItem(scanner.peek())) {
      readItem(parts);
    }
    if (parts.isEmpty()) {
      throw expected("a word, rule, group or option", "Write <NULL> where nothing is said.");
    }
    return parts.size() == 1 ? parts.get(0) : new Expansion.Sequence(parts, line);
  }

  private static boolean beginsItem(JsgfScanner.Token token) {
    return switch (token.kind()) {
      case WORD, QUOTED -> true;
      case SIGN -> token.is("<") || token.is("(") || token.is("[");
      case TAG, END -> false;
    };
  }

  private void readItem(List<Expansion> parts) {
    Expansion item = readUnit();
    JsgfScanner.Token sign = scanner.peek();
    if (sign.is("*") || sign.is("+")) {
      scanner.next();
      item = new Expansion.Repeat(item, sign.is("+"), sign.line());
      if (scanner.peek().is("*") || scanner.peek().is("+")) {
        throw expected("one '*' or '+'", "Take the second away.");
      }
    }
    parts.add(item);
    readTags(parts);
  }

  private void readTags(List<Expansion> parts) {
    while (scanner.peek().kind() == JsgfScanner.Kind.TAG) {
      JsgfScanner.Token tag = scanner.next();
      if (tag.text().isEmpty()) {
        faults.add(
            fault(
                tag,
                "a tag with a text",
                "Write what it means between the braces, or take it away."));
      } else {
        parts.add(new Expansion.Tag(tag.text(), tag.line()));
      }
    }
  }

  private Expansion readUnit() {
    JsgfScanner.Token token = scanner.peek();
    if (token.is("<")) {
      return readReference();
    }
    if (token.is("(")) {
      return readBracket(")");
    }
    if (token.is("[")) {
      return new Expansion.Maybe(readBracket("]"), token.line());
    }
    scanner.next();
    return words(token);
  }

  private Expansion readBracket(String closing) {
    int line = scanner.next().line();
    nesting++;
    if (nesting > DEEPEST_NESTING) {
      throw expected(
          "at most " + DEEPEST_NESTING + " brackets inside each other",
          "Give the inner part a rule of its own.");
    }
    Expansion inner = readChoice();
    take(closing, "to close the bracket opened on line " + line);
    nesting--;
    return inner;
  }

  private Expansion readReference() {
    int line = scanner.peek().line();
    String name = takeRuleName();
    if (name.contains(".")) {
      faults.add(
          new GrammarFault(
              source,
              line,
              "a plain rule name",
              "<" + name + ">",
              "Leave out the grammar's name: all files share one namespace."));
    }
    return switch (name) {
      case "NULL" -> new Expansion.Nothing(line);
      case "VOID" -> new Expansion.Never(line);
      default -> new Expansion.Reference(name, line);
    };
  }

  private Expansion words(JsgfScanner.Token token) {
    List<Expansion> words = new ArrayList<>();
    for (String word : token.text().strip().split("\\s+", -1)) {
      if (word.isEmpty()) {
        faults.add(
            fault(token, "a word between the quotes", "Write <NULL> where nothing is said."));
      } else if (!word.equals(word.toLowerCase(Locale.ROOT))) {
        faults.add(
            fault(
                token, "words in lower case", "Write \"" + word.toLowerCase(Locale.ROOT) + "\"."));
      }
      words.add(new Expansion.Word(word, token.line()));
    }
    return words.size() == 1 ? words.get(0) : new Expansion.Sequence(words, token.line());
  }

  private String takeRuleName() {
    take("<", "before a rule's name");
    StringBuilder name = new StringBuilder(takeWord("a rule's name"));
    if (name.toString().endsWith(".") && scanner.peek().is("*")) {
      scanner.next();
      name.append('*');
    }
    take(">", "after the rule's name '" + name + "'");
    return name.toString();
  }

  private String takeWord(String what) {
    if (scanner.peek().kind() != JsgfScanner.Kind.WORD) {
      throw expected(what, "Write it in letters and digits.");
    }
    return scanner.next().text();
  }

  private void take(String sign, String where) {
    if (!scanner.peek().is(sign)) {
      throw expected(
          "'" + sign + "' " + where, "Put it there, or see whether the line before is finished.");
    }
    scanner.next();
  }

  private Misread expected(String what, String remedy) {
    return new Misread(fault(scanner.peek(), what, remedy));
  }

  private GrammarFault fault(JsgfScanner.Token found, String what, String remedy) {
    if (found.is("/*")) {
      return new GrammarFault(
          source,
          found.line(),
          "'*/' to end this comment",
          "the end of the file",
          "Close the comment.");
    }
    if (found.is("{") || found.is("\"")) {
      String closing = found.is("{") ? "'}'" : "a second '\"'";
      return new GrammarFault(
          source,
          found.line(),
          closing + " on the line of the first",
          "the end of the line",
          "Close it on its line.");
    }
    return new GrammarFault(source, found.line(), what, found.described(), remedy);
  }

  /** Leaves a statement that cannot be read; never leaves the reader. */
  private static final class Misread extends RuntimeException {
    private static final long serialVersionUID = 1L;
    private final transient GrammarFault fault;

    private Misread(GrammarFault fault) {
      super(fault.toString(), null, false, false);
      this.fault = fault;
    }
  }
}
