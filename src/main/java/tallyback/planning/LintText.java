package tallyback.planning;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import tallyback.model.Amount;
import tallyback.model.Rational;
import tallyback.model.Unit;
import tallyback.model.Weight;
import tallyback.phrase.GrammarFault;
import tallyback.plan.Places;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Instrument;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.Named;
import tallyback.plan.Plan.Step;
import tallyback.plan.Plan.Torque;
import tallyback.plan.PlanFault;
import tallyback.plan.Spot;
import tallyback.trade.WidthAcrossFlats;

/** Every sentence of the deep lint (English only). */
final class LintText {

  /** What stands between a phrase and its two readings in a fault of the grammar. */
  private static final String READ_AS = ", read as ";

  private LintText() {}

  // Torque

  static void overload(Overload.Bolt bolt, Weight weight, LintList list) {
    Torque torque = bolt.torque();
    boolean surely = weight == Weight.STOP;
    double factor = surely ? bolt.factor().highest() : bolt.factor().nominal();
    list.add(
        weight,
        list.places().of(bolt.item().id(), "torque", "value"),
        "a torque that "
            + bolt.item().thread()
            + (bolt.classKnown()
                ? " " + bolt.grade().sign() + " bears"
                : " bears even in class 12.9")
            + " (proof load "
            + kilonewtons(bolt.proofN())
            + ")",
        inNewtonMetres(torque.value())
            + ", which pulls it with "
            + (surely ? "at least " : "some ")
            + kilonewtons(bolt.newtons(torque.value().base(), factor))
            + " (K = "
            + decimals(factor, 2)
            + ")",
        wouldSuit(bolt, "check the figure, its unit, thread and class in the manual"));
  }

  static void hardlyTight(Overload.Bolt bolt, LintList list) {
    Amount value = bolt.torque().value();
    list.add(
        Weight.NOTE,
        list.places().of(bolt.item().id(), "torque", "value"),
        "a torque that tightens "
            + bolt.item().thread()
            + " "
            + bolt.grade().sign()
            + " (proof load "
            + kilonewtons(bolt.proofN())
            + ")",
        inNewtonMetres(value)
            + ", which comes to "
            + Math.round(bolt.share(value.base()) * 100)
            + " % of it",
        wouldSuit(bolt, "check the figure and its unit in the manual"));
  }

  private static String wouldSuit(Overload.Bolt bolt, String otherwise) {
    List<Unit> units = bolt.wouldSuit();
    String number = bolt.torque().value().value().toPlainString();
    return units.isEmpty()
        ? otherwise
        : number
            + " "
            + units.stream().map(Unit::symbol).collect(Collectors.joining(" or "))
            + " would suit: look in the manual which unit it means";
  }

  static void noWrench(Item item, Torque torque, List<Instrument> wrenches, LintList list) {
    list.add(
        Weight.NOTE,
        list.places().of(item.id(), "torque", "value"),
        "a torque that a wrench of the plan reaches",
        torque.value()
            + ", and "
            + wrenches.stream()
                .map(each -> quote(each.label()) + " from " + each.from() + " to " + each.to())
                .collect(Collectors.joining(", ")),
        "add the wrench that you will take, or check the figure and its unit");
  }

  // Heads

  static void headUnusual(Item item, Amount head, WidthAcrossFlats row, LintList list) {
    Collection<Integer> on = HeadSizes.usualOn(head);
    list.add(
        Weight.NOTE,
        list.places().of(item.id(), "head"),
        numbers(row.sizesMm(), "") + " mm across flats on " + item.thread(),
        head + (on.isEmpty() ? "" : ", which is usual on " + numbers(on, "M")),
        "check head and thread; leave it where your bolt has it so");
  }

  // Steps

  static void severalInName(Item item, LintList list) {
    list.add(
        Weight.CHECK,
        list.places().of(item.id(), "count"),
        "a count, since " + quote(item.label()) + " speaks of several",
        "1",
        "write how many, or name it in the singular");
  }

  static void onNeverOff(Item item, Step step, LintList list) {
    list.add(
        Weight.NOTE,
        list.places().of(item.id()),
        "an earlier step that takes it off",
        quote(item.id()) + " only put on (in " + quote(step.id()) + ")",
        "name it under \"off\" of the step that takes the old one off");
  }

  static void sumsDiffer(Item item, List<Step> off, List<Step> on, LintList list) {
    list.add(
        Weight.CHECK,
        list.places().of(item.id()),
        "as many on as off",
        sum(item, off) + " off (" + in(off) + "), " + sum(item, on) + " on (" + in(on) + ")",
        "a step moves all of a group: name it as often under \"on\" as under \"off\", or make two"
            + " groups of it");
  }

  private static int sum(Item item, List<Step> steps) {
    return item.count() * steps.size();
  }

  private static String in(List<Step> steps) {
    return steps.stream().map(step -> quote(step.id())).collect(Collectors.joining(", "));
  }

  static void wrongWayRound(Item item, Step first, Step second, LintList list) {
    boolean temporary = item.temporary();
    list.add(
        Weight.CHECK,
        list.places().of(second.id()),
        quote(item.id())
            + (temporary ? " to go in before it comes out" : " to come off before it goes on"),
        (temporary ? "out in " : "on in ")
            + quote(second.id())
            + ", which "
            + quote(first.id())
            + " needs first",
        "swap the two, or correct \"needs\"");
  }

  // Names

  static void unsayable(
      Named named, int index, String word, Optional<String> suggested, LintList list) {
    list.add(
        Weight.STOP,
        list.places().of(named.id(), "say", index),
        "words with a known pronunciation",
        quote(word),
        suggested
            .map(
                phones ->
                    "add it under \"pronunciations\", from its letters perhaps \""
                        + word
                        + ": "
                        + phones
                        + "\", or use another word")
            .orElse("add it under \"pronunciations\", or use another word"));
  }

  static void soundsAlike(
      SoundsAlike.Name earlier, SoundsAlike.Name later, Weight weight, LintList list) {
    Spot first = list.places().of(earlier.named().id(), "say", earlier.index());
    String how =
        switch (weight) {
          case STOP -> ", which sounds the same as ";
          case CHECK -> ", which sounds much like ";
          case NOTE -> ", which sounds a little like ";
        };
    list.add(
        weight,
        list.places().of(later.named().id(), "say", later.index()),
        "a spoken name that can't be taken for another",
        quote(later.said()) + how + quote(earlier.said()) + " on line " + first.line(),
        weight == Weight.NOTE
            ? "leave it, or make the two more different if you work in noise"
            : "make the two sound different, for example by where they sit");
  }

  /** A fault of the grammar, at the last thing of the plan that it is about. */
  static PlanFault grammar(GrammarFault fault, LintList list) {
    Spot at =
        fault.ids().stream()
            .map(id -> list.places().of(id, "say", 0))
            .max(Comparator.comparingInt(Spot::line).thenComparingInt(Spot::column))
            .orElse(new Spot(0, 0, ""));
    // How the grammar came to its readings helps nobody who writes a plan.
    int readings = fault.ids().isEmpty() ? -1 : fault.found().indexOf(READ_AS);
    return new PlanFault(
        Weight.STOP,
        list.file(),
        at.line(),
        at.column(),
        at.field(),
        fault.expected(),
        readings < 0
            ? fault.found()
            : fault.found().substring(0, readings) + ", which can be read in two ways",
        readings < 0
            ? lowerFirst(fault.remedy())
            : "give it another name, one that the tool does not use itself");
  }

  private static String lowerFirst(String sentence) {
    String open = sentence.endsWith(".") ? sentence.substring(0, sentence.length() - 1) : sentence;
    return open.isEmpty()
        ? open
        : open.substring(0, 1).toLowerCase(Locale.ROOT) + open.substring(1);
  }

  // What is left to the manual

  /** What is open, one for each thing: {@code head, torque of sump plug (line 10)}. */
  static List<String> open(Plan plan, Places places) {
    Map<String, Set<String>> fields = new LinkedHashMap<>();
    for (Plan.Open open : plan.open()) {
      // Of a limit the measure alone: both ends of it stand on one page of the manual.
      String value = open.field().split(" ", 2)[0];
      fields.computeIfAbsent(open.subject(), unused -> new LinkedHashSet<>()).add(value);
    }
    return fields.entrySet().stream()
        .map(
            each ->
                String.join(", ", each.getValue())
                    + " of "
                    + plan.label(each.getKey())
                    + " (line "
                    + places.of(each.getKey()).line()
                    + ")")
        .toList();
  }

  // Figures

  private static String inNewtonMetres(Amount torque) {
    if (torque.unit() == Unit.NEWTON_METRE) {
      return torque.toString();
    }
    return torque + " = " + shown(torque.base()) + " " + Unit.NEWTON_METRE.symbol();
  }

  private static String shown(Rational value) {
    BigDecimal exact = value.toBigDecimal();
    int scale = exact.abs().compareTo(BigDecimal.TEN) < 0 ? 1 : 0;
    return exact.setScale(scale, RoundingMode.HALF_UP).toPlainString();
  }

  private static String kilonewtons(double newtons) {
    return decimals(newtons / 1000, 1) + " kN";
  }

  private static String decimals(double value, int places) {
    return String.format(Locale.ROOT, "%." + places + "f", value);
  }

  private static String numbers(Collection<Integer> numbers, String sign) {
    List<String> sorted = numbers.stream().sorted().map(each -> sign + each).toList();
    int last = sorted.size() - 1;
    return last < 1
        ? String.join("", sorted)
        : String.join(", ", sorted.subList(0, last)) + " or " + sorted.get(last);
  }

  private static String quote(String text) {
    return "\"" + text + "\"";
  }
}
