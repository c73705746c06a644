package tallyback.plan;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.snakeyaml.engine.v2.common.FlowStyle;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;

/**
 * What the text of a plan leaves to the maker's manual ({@code from-manual}), and how a value that
 * was looked up there gets into it: every other letter of the text stays as it is, remarks too.
 *
 * <p>Thread-safe: it keeps nothing between calls.
 */
public final class ManualGaps {

  private static final String FROM_MANUAL = "from-manual";
  private static final String TORQUE = "torque";

  /** What a torque is made of, in the order in which it is written. */
  private static final List<String> OF_TORQUE = List.of("value", "tolerance", "tolerance-from");

  /** Words and figures that mean themselves in YAML, in a list between braces too. */
  private static final Pattern PLAIN =
      Pattern.compile("[\\p{L}\\p{Nd}±−+][\\p{L}\\p{Nd}·./°±%−+ -]*[\\p{L}\\p{Nd}.°%]");

  /** Minutes are counted: the only value without a unit. */
  private static final Pattern COUNT = Pattern.compile("[1-9][0-9]{0,3}");

  private final String text;

  private ManualGaps(String text) {
    this.text = text;
  }

  /**
   * A value that is still to be entered.
   *
   * @param line where the word stands that says so, from 1
   * @param column likewise, from 1, in characters of Unicode
   * @param of what it is a value of, as the plan names it
   * @param field which value: the field's name in the plan
   */
  public record Gap(int line, int column, String of, String field) {

    /** What has to be written for it: the names of the single answers. */
    public List<String> answers() {
      return field.equals(TORQUE) ? OF_TORQUE : List.of(field);
    }
  }

  /**
   * What came of it.
   *
   * @param text the plan's text, with the value in it when nothing is wrong
   * @param line where the value stands, from 1
   * @param wrong what is wrong with the value as it was written; none when it is in the text
   */
  public record Filled(String text, int line, List<PlanFault> wrong) {

    /** Copies the list. */
    public Filled {
      wrong = List.copyOf(wrong);
    }
  }

  private record Found(Gap gap, MappingNode section, NodeTuple entry, Node word) {}

  /** All that is still to be entered, in the order of the text; none while it is no YAML. */
  public static List<Gap> of(String text) {
    return new ManualGaps(text).found().stream().map(Found::gap).toList();
  }

  /**
   * Puts a value in.
   *
   * @param name how the plan is called in faults
   * @param text the plan's text
   * @param line the gap's line
   * @param column the gap's column
   * @param written what was written for each of {@link Gap#answers()}; one left out or blank is
   *     left out of the plan
   * @return the new text; or the old one, when the plan's reader finds something wrong with the
   *     value
   * @throws IllegalArgumentException if there is no such gap: the text has changed meanwhile
   */
  public static Filled fill(
      String name, String text, int line, int column, Map<String, String> written) {
    ManualGaps gaps = new ManualGaps(text);
    Found found =
        gaps.found().stream()
            .filter(each -> each.gap().line() == line && each.gap().column() == column)
            .findFirst()
            .orElseThrow(
                () ->
                    new IllegalArgumentException(
                        "line " + line + ": nothing is left to the manual there any more"));
    Edit edit = gaps.edit(found, entry(found.gap(), written));
    List<PlanFault> wrong =
        PlanReader.read(name, edit.text()).faults().stream()
            .filter(fault -> fault.line() == edit.line())
            .toList();
    return new Filled(wrong.isEmpty() ? edit.text() : text, edit.line(), wrong);
  }

  private record Edit(String text, int line) {}

  private Edit edit(Found found, String entry) {
    return found.entry().getValueNode() instanceof SequenceNode list
            && list.getFlowStyle() == FlowStyle.BLOCK
            && list.getValue().size() > 1
        ? outOfLines(found, entry)
        : replaced(found, entry);
  }

  /** One of several lines: the line goes, and its remark comes along to the value. */
  private Edit outOfLines(Found found, String entry) {
    int before = offset(found.entry().getKeyNode().getStartMark());
    int word = offset(found.word().getStartMark());
    int from = text.lastIndexOf('\n', word) + 1;
    int end = offset(found.word().getEndMark());
    int newline = text.indexOf('\n', end);
    int to = newline < 0 ? text.length() : newline + 1;
    String remark = text.substring(end, newline < 0 ? to : newline).stripTrailing();
    String whole =
        text.substring(0, before)
            + entry
            + remark
            + lineEnd()
            + indent(found)
            + text.substring(before, from)
            + text.substring(to);
    return new Edit(whole, lineOf(found.entry().getKeyNode()));
  }

  private Edit replaced(Found found, String entry) {
    Node value = found.entry().getValueNode();
    List<Node> words = words(value);
    String rest =
        words.stream()
            .filter(each -> !each.equals(found.word()))
            .map(each -> ((ScalarNode) each).getValue())
            .collect(Collectors.joining(", "));
    boolean inLine = found.section().getFlowStyle() == FlowStyle.FLOW;
    int from = offset(found.entry().getKeyNode().getStartMark());
    boolean lines = value instanceof SequenceNode list && list.getFlowStyle() == FlowStyle.BLOCK;
    int to = offset((lines ? words.get(words.size() - 1) : value).getEndMark());
    String left = rest.isEmpty() ? "" : FROM_MANUAL + ": [" + rest + "]";
    String between = left.isEmpty() ? "" : inLine ? ", " : lineEnd() + indent(found);
    int line = lineOf(found.entry().getKeyNode()) + (left.isEmpty() || inLine ? 0 : 1);
    return new Edit(text.substring(0, from) + left + between + entry + text.substring(to), line);
  }

  private String lineEnd() {
    return text.contains("\r\n") ? "\r\n" : "\n";
  }

  private static String indent(Found found) {
    return " ".repeat(mark(found.entry().getKeyNode().getStartMark()).getColumn());
  }

  private static int lineOf(Node node) {
    return mark(node.getStartMark()).getLine() + 1;
  }

  private int offset(Optional<Mark> mark) {
    return text.offsetByCodePoints(0, mark(mark).getIndex());
  }

  private static Mark mark(Optional<Mark> mark) {
    return mark.orElseThrow(() -> new IllegalStateException("read without marks"));
  }

  private static String entry(Gap gap, Map<String, String> written) {
    if (!gap.field().equals(TORQUE)) {
      return gap.field() + ": " + scalar(written.getOrDefault(gap.field(), ""));
    }
    return TORQUE
        + ": {"
        + OF_TORQUE.stream()
            .filter(part -> !written.getOrDefault(part, "").isBlank())
            .map(part -> part + ": " + scalar(written.getOrDefault(part, "")))
            .collect(Collectors.joining(", "))
        + "}";
  }

  /** A bare word could be read as a truth or nothing, so it is quoted; as in JSON. */
  private static String scalar(String written) {
    String value = written.strip();
    if (COUNT.matcher(value).matches()) {
      return value;
    }
    if (value.contains(" ") && PLAIN.matcher(value).matches()) {
      return value;
    }
    StringBuilder quoted = new StringBuilder("\"");
    value
        .codePoints()
        .forEach(
            each -> {
              if (each == '"' || each == '\\') {
                quoted.append('\\').appendCodePoint(each);
              } else if (Character.isISOControl(each)) {
                quoted.append(' ');
              } else {
                quoted.appendCodePoint(each);
              }
            });
    return quoted.append('"').toString();
  }

  private List<Found> found() {
    List<Found> found = new ArrayList<>();
    YamlTree.read(text, new Faults("")).ifPresent(root -> look(root, 0, found));
    return found;
  }

  /**
   * Depth is bounded by the reader; values that are shared are looked at where they first stand.
   */
  private static void look(Node node, int level, List<Found> found) {
    if (level > YamlTree.MOST_LEVELS) {
      return;
    }
    if (node instanceof SequenceNode list) {
      list.getValue().forEach(each -> look(each, level + 1, found));
    } else if (node instanceof MappingNode section) {
      for (NodeTuple entry : section.getValue()) {
        if (FROM_MANUAL.equals(scalarOf(entry.getKeyNode()))) {
          words(entry.getValueNode())
              .forEach(word -> add(new Found(gap(section, word), section, entry, word), found));
        } else {
          look(entry.getValueNode(), level + 1, found);
        }
      }
    }
  }

  private static void add(Found each, List<Found> found) {
    boolean again =
        found.stream()
            .anyMatch(
                known ->
                    known.gap().line() == each.gap().line()
                        && known.gap().column() == each.gap().column());
    if (!again) {
      found.add(each);
    }
  }

  private static List<Node> words(Node value) {
    List<Node> all = value instanceof SequenceNode list ? list.getValue() : List.of(value);
    return all.stream().filter(ScalarNode.class::isInstance).toList();
  }

  private static Gap gap(MappingNode section, Node word) {
    Mark at = mark(word.getStartMark());
    String field = ((ScalarNode) word).getValue();
    return new Gap(at.getLine() + 1, at.getColumn() + 1, called(section), field);
  }

  /** A limit has no name of its own: it is called by what it is about. */
  private static String called(MappingNode section) {
    String name = first(section, "say");
    if (name == null) {
      name = first(section, "id");
    }
    if (name == null) {
      String subject = first(section, "subject");
      String measure = first(section, "measure");
      name =
          (subject == null ? "" : subject.replace('-', ' ') + ": ")
              + (measure == null ? "" : measure);
    }
    return name;
  }

  private static @Nullable String first(MappingNode section, String key) {
    for (NodeTuple entry : section.getValue()) {
      if (key.equals(scalarOf(entry.getKeyNode()))) {
        List<Node> words = words(entry.getValueNode());
        return words.isEmpty() ? null : scalarOf(words.get(0));
      }
    }
    return null;
  }

  private static @Nullable String scalarOf(Node node) {
    return node instanceof ScalarNode scalar ? scalar.getValue() : null;
  }
}
