package tallyback.planning;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tallyback.model.Statement.Thing;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Basis;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Instrument;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.LevelMark;
import tallyback.plan.Plan.Limit;
import tallyback.plan.Plan.Named;
import tallyback.plan.Plan.Point;
import tallyback.plan.Plan.Step;
import tallyback.plan.Plan.Torque;
import tallyback.plan.PlanReader;

/**
 * Writes a plan as YAML, with remarks. Reading what was written gives the same plan but for its
 * text and hash. Used once, by one thread.
 */
public final class PlanWriter {

  private static final Pattern PLAIN =
      Pattern.compile(
          "[A-Za-z][A-Za-z0-9 ·/.()%±°^'+-]*(?<! )|[0-9][0-9.]* [A-Za-z·%/]+( [a-z]+)?");

  private static final Pattern MEANS_SOMETHING_ELSE =
      Pattern.compile("(?i)true|false|null|yes|no|on|off|nan|inf|y|n");

  private final StringBuilder text = new StringBuilder();
  private final Plan plan;
  private final Remarks remarks;

  /** What is remarked, as lines without the sign of a comment. */
  public interface Remarks {

    /** At the head of the file. */
    default List<String> ofFile() {
      return List.of();
    }

    /** Below an entry of the plan. */
    default List<String> of(Named named) {
      return List.of();
    }

    /** Instead of the number of a group; empty when it is known. */
    default List<String> insteadOfCount(Item item) {
      return List.of();
    }

    /** None at all. */
    static Remarks none() {
      return new Remarks() {};
    }
  }

  private PlanWriter(Plan plan, Remarks remarks) {
    this.plan = plan;
    this.remarks = remarks;
  }

  /** Writes a plan. */
  public static String write(Plan plan) {
    return write(plan, Remarks.none());
  }

  /**
   * Writes a plan with remarks.
   *
   * @param plan the plan
   * @param remarks what is remarked where
   * @return the text of a plan file, ending in a line feed
   */
  public static String write(Plan plan, Remarks remarks) {
    PlanWriter writer = new PlanWriter(plan, remarks);
    writer.all();
    return writer.text.toString();
  }

  private void all() {
    remarks.ofFile().forEach(line -> comment("", line));
    line("tallyback-plan: " + PlanReader.FORMAT);
    line("name: " + scalar(plan.name()));
    if (plan.basis() != Basis.WRITTEN) {
      line("basis: " + word(plan.basis()));
    }
    line("");
    line("machine:");
    line("  name: " + scalar(plan.machine().name()));
    field("  ", "serial", plan.machine().serial());
    line("  sides: " + scalar(plan.machine().sides()));
    section("people", plan.people(), person -> List.of());
    section("fluids", plan.fluids(), PlanWriter::fluid);
    systems();
    section("places", plan.places(), place -> List.of());
    section("items", plan.items(), this::item);
    section("steps", plan.steps(), PlanWriter::step);
    section("instruments", plan.instruments(), PlanWriter::instrument);
    limits();
    pronunciations();
  }

  // ---- sections

  private <N extends Named> void section(
      String name, List<N> all, Function<N, List<String>> fields) {
    if (all.isEmpty()) {
      return;
    }
    line("");
    line(name + ":");
    all.forEach(each -> entry("  ", each, fields.apply(each)));
  }

  private void entry(String indent, Named named, List<String> fields) {
    line(indent + "- id: " + named.id());
    line(indent + "  say: " + list(named.say()));
    fields.forEach(field -> line(indent + "  " + field));
    List<String> left = open(named.id());
    if (!left.isEmpty()) {
      line(indent + "  from-manual: " + list(left));
    }
    remarks.of(named).forEach(remark -> comment(indent + "  ", remark));
  }

  /**
   * What is left to the manual of something with an id; of a limit the measure stands before it.
   */
  private List<String> open(String subject) {
    return plan.open().stream()
        .filter(each -> each.subject().equals(subject) && !each.field().contains(" "))
        .map(Plan.Open::field)
        .toList();
  }

  private static List<String> fluid(Plan.Fluid fluid) {
    List<String> fields = new ArrayList<>();
    fields.add("grade: " + scalar(fluid.grade()));
    add(fields, "form", fluid.form());
    add(fields, "base", fluid.base());
    add(fields, "strength", fluid.strength());
    add(fields, "litre-weighs", fluid.litreWeighs());
    return fields;
  }

  private void systems() {
    if (plan.systems().isEmpty()) {
      return;
    }
    line("");
    line("systems:");
    for (FluidSystem system : plan.systems()) {
      List<String> fields = new ArrayList<>();
      fields.add("fluid: " + system.fluid());
      add(fields, "capacity", system.capacity());
      add(fields, "before", system.before());
      add(fields, "matters", system.matters());
      add(fields, "dry-parts", system.dryParts());
      add(fields, "old-at-most", system.oldAtMost());
      entry("  ", system, fields);
      points("drains", system.drains());
      points("fills", system.fills());
      if (!system.marks().isEmpty()) {
        line("    marks:");
        for (LevelMark mark : system.marks()) {
          entry("      ", mark, mark.cold() ? List.of("cold: true") : List.of());
        }
      }
    }
  }

  private void points(String name, List<Point> points) {
    if (points.isEmpty()) {
      return;
    }
    line("    " + name + ":");
    for (Point point : points) {
      List<String> fields = new ArrayList<>();
      add(fields, "share", point.share());
      add(fields, "plug", point.plug());
      entry("      ", point, fields);
    }
  }

  private List<String> item(Item item) {
    List<String> fields = new ArrayList<>();
    boolean fastener =
        item.thread() != null
            || item.head() != null
            || item.length() != null
            || item.torque() != null;
    if (item.thing() != Thing.PART || fastener) {
      fields.add("thing: " + word(item.thing()));
    }
    List<String> instead = remarks.insteadOfCount(item);
    instead.forEach(remark -> fields.add("# " + oneLine(remark)));
    if (instead.isEmpty() && item.count() != 1) {
      fields.add("count: " + item.count());
    }
    add(fields, "of", item.of());
    add(fields, "thread", item.thread());
    add(fields, "head", item.head());
    add(fields, "drive", item.drive());
    add(fields, "length", item.length());
    add(fields, "grade", item.grade());
    if (item.torque() != null) {
      torque(fields, item.torque());
    }
    flag(fields, "stretch", item.stretch());
    flag(fields, "renew", item.renew());
    flag(fields, "carry-over", item.carryOver());
    flag(fields, "temporary", item.temporary());
    if (item.alignment() != null) {
      fields.add(
          "alignment: {angle: "
              + scalar(item.alignment().angle().toString())
              + ", tolerance: "
              + scalar("±" + item.alignment().tolerance())
              + "}");
    }
    return fields;
  }

  private static void torque(List<String> fields, Torque torque) {
    fields.add("torque:");
    fields.add("  value: " + scalar(torque.value().toString()));
    fields.add(
        torque.plus().equals(torque.minus())
            ? "  tolerance: " + scalar("±" + torque.plus())
            : "  tolerance: {plus: "
                + scalar(torque.plus().toString())
                + ", minus: "
                + scalar(torque.minus().toString())
                + "}");
    fields.add("  tolerance-from: " + scalar(torque.toleranceFrom()));
    if (torque.passes() != 1) {
      fields.add("  passes: " + torque.passes());
    }
    List<String> more = new ArrayList<>();
    add(more, "angle", torque.angle());
    add(more, "threads", torque.threads());
    add(more, "into", torque.into());
    flag(more, "sequence", torque.sequence());
    flag(more, "again-after-heat", torque.againAfterHeat());
    add(more, "again-after", torque.againAfter());
    more.forEach(field -> fields.add("  " + field));
  }

  private static List<String> step(Step step) {
    List<String> fields = new ArrayList<>();
    ids(fields, "off", step.off());
    ids(fields, "on", step.on());
    ids(fields, "needs", step.needs());
    ids(fields, "states", step.states().stream().map(PlanWriter::word).toList());
    if (step.minutes() != null) {
      fields.add("minutes: " + step.minutes());
    }
    if (!step.cautions().isEmpty()) {
      fields.add("cautions:");
      for (String caution : step.cautions()) {
        Boolean injury = step.injury().get(caution);
        fields.add(
            injury == null
                ? "  - " + scalar(caution)
                : "  - {text: " + scalar(caution) + ", injury: " + injury + "}");
      }
    }
    return fields;
  }

  private static List<String> instrument(Instrument instrument) {
    List<String> fields = new ArrayList<>();
    fields.add("kind: " + word(instrument.kind()));
    add(fields, "from", instrument.from());
    add(fields, "to", instrument.to());
    if (instrument.tolerancePercent() != null) {
      fields.add("tolerance: " + instrument.tolerancePercent().toPlainString() + " %");
    }
    add(fields, "tolerance", instrument.tolerance());
    add(fields, "calibrated", instrument.calibrated());
    if (instrument.adapter() != null) {
      Plan.Adapter adapter = instrument.adapter();
      fields.add("adapter:");
      List<String> more = new ArrayList<>();
      add(more, "wrench", adapter.wrench());
      add(more, "reach", adapter.reach());
      add(more, "angle", adapter.angle());
      add(more, "said", adapter.said());
      more.forEach(field -> fields.add("  " + field));
    }
    return fields;
  }

  private void limits() {
    // One of which all is left to the manual is no limit yet, but must not be forgotten.
    Map<List<String>, Limit> known = new LinkedHashMap<>();
    plan.limits().forEach(each -> known.put(List.of(each.subject(), word(each.measure())), each));
    Map<List<String>, List<String>> left = new LinkedHashMap<>();
    known.keySet().forEach(limit -> left.put(limit, new ArrayList<>()));
    for (Plan.Open each : plan.open()) {
      int blank = each.field().indexOf(' ');
      if (blank > 0) {
        List<String> limit = List.of(each.subject(), each.field().substring(0, blank));
        left.computeIfAbsent(limit, unused -> new ArrayList<>())
            .add(each.field().substring(blank + 1));
      }
    }
    if (left.isEmpty()) {
      return;
    }
    line("");
    line("limits:");
    left.forEach((names, open) -> limit(names, known.get(names), open));
  }

  private void limit(List<String> names, @Nullable Limit limit, List<String> open) {
    line("  - subject: " + names.get(0));
    line("    measure: " + names.get(1));
    List<String> fields = new ArrayList<>();
    if (limit != null) {
      add(fields, "from", limit.from());
      add(fields, "to", limit.to());
      add(fields, "drop", limit.drop());
      if (limit.minutes() != null) {
        fields.add("minutes: " + limit.minutes());
      }
    }
    if (!open.isEmpty()) {
      fields.add("from-manual: " + list(open));
    }
    fields.forEach(field -> line("    " + field));
  }

  private void pronunciations() {
    if (plan.pronunciations().isEmpty()) {
      return;
    }
    line("");
    line("pronunciations:");
    Map<String, List<String>> sorted = new TreeMap<>(plan.pronunciations());
    sorted.forEach((word, ways) -> line("  " + quoted(word) + ": " + list(ways)));
  }

  // ---- lines

  private void line(String words) {
    text.append(words).append('\n');
  }

  private void comment(String indent, String words) {
    line(indent + (words.isEmpty() ? "#" : "# " + oneLine(words)));
  }

  /** What somebody typed must not begin a line of its own. */
  private static String oneLine(String words) {
    return words.replaceAll("[\\p{Cntrl}\\u0085\\u2028\\u2029\\uFEFF]+", " ").strip();
  }

  private void field(String indent, String name, @Nullable String value) {
    if (value != null) {
      line(indent + name + ": " + scalar(value));
    }
  }

  private static void add(List<String> fields, String name, @Nullable Object value) {
    if (value instanceof Enum<?> constant) {
      fields.add(name + ": " + word(constant));
    } else if (value != null) {
      fields.add(name + ": " + scalar(value.toString()));
    }
  }

  private static void flag(List<String> fields, String name, boolean set) {
    if (set) {
      fields.add(name + ": true");
    }
  }

  private static void ids(List<String> fields, String name, List<String> ids) {
    if (!ids.isEmpty()) {
      fields.add(name + ": [" + String.join(", ", ids) + "]");
    }
  }

  private static String list(List<String> texts) {
    return texts.stream().map(PlanWriter::scalar).collect(Collectors.joining(", ", "[", "]"));
  }

  private static String word(Enum<?> constant) {
    return constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** Plain where that can't be read as anything else, in a list too; else in quotes. */
  private static String scalar(String value) {
    boolean plain =
        PLAIN.matcher(value).matches() && !MEANS_SOMETHING_ELSE.matcher(value).matches();
    return plain ? value : quoted(value);
  }

  private static String quoted(String value) {
    StringBuilder quoted = new StringBuilder("\"");
    for (int at = 0; at < value.length(); at++) {
      char sign = value.charAt(at);
      if (sign == '"' || sign == '\\') {
        quoted.append('\\').append(sign);
      } else if (Character.isISOControl(sign)
          || sign == '\u2028'
          || sign == '\u2029'
          || sign == '\uFEFF') {
        quoted.append(String.format(Locale.ROOT, "\\u%04X", (int) sign));
      } else {
        quoted.append(sign);
      }
    }
    return quoted.append('"').toString();
  }
}
