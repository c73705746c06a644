package tallyback.phrase;

import java.util.Collection;
import java.util.List;
import java.util.stream.Collectors;

/**
 * Writes rules as one file of the JSpeech Grammar Format, which {@link JsgfReader} and other
 * readers of the format take.
 */
final class JsgfWriter {

  private final StringBuilder out = new StringBuilder();

  private JsgfWriter() {}

  /**
   * Writes a grammar.
   *
   * @param grammar its name
   * @param rules its rules, in order
   * @return the text of the file
   */
  static String write(String grammar, Collection<JsgfRule> rules) {
    JsgfWriter writer = new JsgfWriter();
    writer.out.append("#JSGF V1.0;\n\ngrammar ").append(grammar).append(";\n");
    rules.forEach(writer::rule);
    return writer.out.toString();
  }

  private void rule(JsgfRule rule) {
    out.append('\n')
        .append(rule.isPublic() ? "public " : "")
        .append('<')
        .append(rule.name())
        .append("> =");
    if (rule.expansion() instanceof Expansion.Choice choice) {
      out.append("\n    ").append(alternatives(choice, "\n  | "));
    } else {
      out.append(' ').append(text(rule.expansion()));
    }
    out.append(";\n");
  }

  private static String alternatives(Expansion.Choice choice, String between) {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < choice.branches().size(); i++) {
      text.append(i == 0 ? "" : between);
      if (!choice.weights().isEmpty()) {
        text.append('/').append(choice.weights().get(i).toPlainString()).append("/ ");
      }
      text.append(text(choice.branches().get(i)));
    }
    return text.toString();
  }

  private static String text(Expansion expansion) {
    if (expansion instanceof Expansion.Word word) {
      return word(word.text());
    }
    if (expansion instanceof Expansion.Tag tag) {
      return "{" + tag.text().replace("\\", "\\\\").replace("}", "\\}") + "}";
    }
    if (expansion instanceof Expansion.Reference reference) {
      return "<" + reference.rule() + ">";
    }
    if (expansion instanceof Expansion.Sequence sequence) {
      return sequence(sequence.parts());
    }
    if (expansion instanceof Expansion.Choice choice) {
      return "(" + alternatives(choice, " | ") + ")";
    }
    if (expansion instanceof Expansion.Maybe maybe) {
      return "[" + unbracketed(maybe.body()) + "]";
    }
    if (expansion instanceof Expansion.Repeat repeat) {
      return "(" + unbracketed(repeat.body()) + ")" + (repeat.atLeastOnce() ? "+" : "*");
    }
    return expansion instanceof Expansion.Nothing ? "<NULL>" : "<VOID>";
  }

  private static String unbracketed(Expansion inner) {
    return inner instanceof Expansion.Choice choice ? alternatives(choice, " | ") : text(inner);
  }

  private static String sequence(List<Expansion> parts) {
    return parts.stream().map(JsgfWriter::part).collect(Collectors.joining(" "));
  }

  /**
   * A sequence inside a sequence keeps its brackets, so that a tag after it still belongs to all of
   * it.
   */
  private static String part(Expansion part) {
    return part instanceof Expansion.Sequence inner
        ? "(" + sequence(inner.parts()) + ")"
        : text(part);
  }

  private static String word(String word) {
    boolean plain =
        word.chars()
            .allMatch(c -> Character.isLetterOrDigit(c) || c == '\'' || c == '-' || c == '_');
    boolean reserved = List.of("grammar", "import", "public").contains(word);
    return plain && !reserved ? word : '"' + word.replace("\\", "\\\\").replace("\"", "\\\"") + '"';
  }
}
