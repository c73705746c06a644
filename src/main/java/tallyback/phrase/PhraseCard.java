package tallyback.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tallyback.model.Statement.Thing;
import tallyback.plan.Plan;
import tallyback.plan.Plan.InstrumentKind;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.Named;

/**
 * Takes the examples out of the documentation comments of the base grammar ({@code @topic},
 * {@code @example}) and fills in names of the plan. An example whose names the plan lacks is left
 * out.
 *
 * <p>Thread rule: stateless.
 */
final class PhraseCard {

  private static final Pattern COMMENT = Pattern.compile("/\\*\\*(.*?)\\*/", Pattern.DOTALL);
  private static final Pattern LINE = Pattern.compile("@(topic|example)\\s+(.*)");
  private static final Pattern BLANK_TO_FILL = Pattern.compile("<(\\w+)>");

  private PhraseCard() {}

  static List<CardSection> sections(String jsgf, Plan plan) {
    List<CardSection> sections = new ArrayList<>();
    Matcher comment = COMMENT.matcher(jsgf);
    while (comment.find()) {
      section(comment.group(1), plan)
          .filter(section -> !section.examples().isEmpty())
          .ifPresent(sections::add);
    }
    return sections;
  }

  private static Optional<CardSection> section(String comment, Plan plan) {
    String topic = null;
    List<String> examples = new ArrayList<>();
    Matcher line = LINE.matcher(comment);
    while (line.find()) {
      if (line.group(1).equals("topic")) {
        topic = line.group(2).strip();
      } else {
        filled(line.group(2).strip(), examples.size(), plan).ifPresent(examples::add);
      }
    }
    return topic == null ? Optional.empty() : Optional.of(new CardSection(topic, examples));
  }

  private static Optional<String> filled(String example, int turn, Plan plan) {
    Matcher blank = BLANK_TO_FILL.matcher(example);
    StringBuilder text = new StringBuilder();
    while (blank.find()) {
      List<? extends Named> things = things(blank.group(1), plan);
      if (things.isEmpty()) {
        return Optional.empty();
      }
      String name = Spelling.ofName(things.get(turn % things.size()).label());
      blank.appendReplacement(text, Matcher.quoteReplacement(name));
    }
    return Optional.of(blank.appendTail(text).toString());
  }

  private static List<? extends Named> things(String blank, Plan plan) {
    return switch (blank) {
      case "point" -> plan.systems().stream().flatMap(system -> system.drains().stream()).toList();
      case "mark" -> plan.systems().stream().flatMap(system -> system.marks().stream()).toList();
      case "substance" -> plan.fluids();
      case "vessel" -> instruments(plan, InstrumentKind.VESSEL);
      case "wrench" -> instruments(plan, InstrumentKind.WRENCH);
      case "adapter" ->
          plan.instruments().stream()
              .filter(each -> each.adapter() != null && each.adapter().changesTorque())
              .toList();
      case "sequence" ->
          plan.items().stream()
              .filter(item -> item.torque() != null && item.torque().sequence())
              .toList();
      case "gauge" -> instruments(plan, InstrumentKind.GAUGE);
      case "person" -> plan.people();
      case "step" -> plan.steps();
      case "place" -> places(plan);
      case "temporary" -> plan.items().stream().filter(Item::temporary).toList();
      case "fastener" -> plan.items().stream().filter(item -> item.torque() != null).toList();
      case "fasteners" ->
          plan.items().stream().filter(item -> item.torque() != null && item.count() > 1).toList();
      default ->
          plan.items().stream()
              .filter(item -> item.thing() == Thing.PART && !item.temporary())
              .toList();
    };
  }

  private static List<? extends Named> places(Plan plan) {
    return plan.places().isEmpty()
        ? plan.items().stream().filter(item -> item.thing() == Thing.PART).toList()
        : plan.places();
  }

  private static List<? extends Named> instruments(Plan plan, InstrumentKind kind) {
    return plan.instruments().stream().filter(each -> each.kind() == kind).toList();
  }
}
