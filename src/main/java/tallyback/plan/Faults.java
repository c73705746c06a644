package tallyback.plan;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import tallyback.model.Weight;

/**
 * Gathers what is wrong in one file. Every sentence that reading a plan can say stands in this
 * class (English only). Not thread-safe: one reader, one file.
 */
final class Faults {

  private static final int MOST_LISTED = 200;
  private static final int LONGEST_QUOTE = 40;

  private final String file;
  private final List<PlanFault> faults = new ArrayList<>();
  private final List<PlanFault> warnings = new ArrayList<>();

  Faults(String file) {
    this.file = file;
  }

  boolean none() {
    return faults.isEmpty();
  }

  /** What came of the file; the plan counts only when nothing is wrong with it. */
  PlanReading reading(Optional<Plan> plan, Places places) {
    return new PlanReading(plan.filter(whole -> none()), faults(), warnings(), plan, places);
  }

  /**
   * All faults in the order of the file; of a hopeless file the first {@value #MOST_LISTED} and how
   * many more there are.
   */
  List<PlanFault> faults() {
    List<PlanFault> sorted = inFileOrder(faults);
    if (sorted.size() <= MOST_LISTED) {
      return sorted;
    }
    List<PlanFault> cut = new ArrayList<>(sorted.subList(0, MOST_LISTED));
    cut.add(
        new PlanFault(
            Weight.STOP,
            file,
            0,
            0,
            "",
            "a plan",
            (sorted.size() - MOST_LISTED) + " more faults",
            "put the listed ones right first"));
    return cut;
  }

  List<PlanFault> warnings() {
    return inFileOrder(warnings);
  }

  private static List<PlanFault> inFileOrder(List<PlanFault> list) {
    return list.stream()
        .distinct()
        .sorted(Comparator.comparingInt(PlanFault::line).thenComparingInt(PlanFault::column))
        .toList();
  }

  private void fault(Spot spot, String expected, String found, String remedy) {
    faults.add(at(Weight.STOP, spot, expected, found, remedy));
  }

  private void warning(Weight weight, Spot spot, String expected, String found, String remedy) {
    warnings.add(at(weight, spot, expected, found, remedy));
  }

  private PlanFault at(Weight weight, Spot spot, String expected, String found, String remedy) {
    return new PlanFault(
        weight, file, spot.line(), spot.column(), spot.field(), expected, found, remedy);
  }

  /** What stands in the file, cut short and kept on one line. */
  static String quote(String text) {
    String oneLine = text.strip().replaceAll("[\\p{Cntrl}\\s]+", " ");
    if (oneLine.codePointCount(0, oneLine.length()) > LONGEST_QUOTE) {
      oneLine = oneLine.substring(0, oneLine.offsetByCodePoints(0, LONGEST_QUOTE)) + "...";
    }
    return "\"" + oneLine + "\"";
  }

  /**
   * Stops guessing once more is wrong than is listed, so that a hopeless file is not slow as well.
   */
  private String didYouMean(String typed, Collection<String> known, String otherwise) {
    if (faults.size() >= MOST_LISTED) {
      return otherwise;
    }
    return Nearest.to(typed, known)
        .map(near -> "did you mean " + quote(near) + "?")
        .orElse(otherwise);
  }

  // The file as a whole

  void noSuchFile() {
    fault(Spot.WHOLE_FILE, "a plan file", "no such file", "check its name and folder");
  }

  void isFolder() {
    fault(Spot.WHOLE_FILE, "a plan file", "a folder", "name the .yaml or .json file in it");
  }

  void notReadable() {
    fault(
        Spot.WHOLE_FILE,
        "a file this user may read",
        "no permission to read it",
        "give this user the right to read it");
  }

  void tooLarge(int limitBytes) {
    fault(
        Spot.WHOLE_FILE,
        "a plan of at most " + limitBytes + " bytes",
        "a larger file",
        "check that this is the plan; split a job that large into several plans");
  }

  void notUtf8(int line, int column) {
    fault(
        new Spot(line, column, ""),
        "text in UTF-8",
        "bytes that are not UTF-8",
        "save the file again as UTF-8");
  }

  void empty() {
    fault(Spot.WHOLE_FILE, "a plan", "an empty file", "begin with the line \"tallyback-plan: 1\"");
  }

  void tab(Spot spot) {
    fault(spot, "spaces", "a tab", "YAML does not take tabs here: put spaces in its place");
  }

  void notYaml(Spot spot, String problem) {
    fault(
        spot,
        "YAML or JSON",
        "something else (" + problem.strip().replaceAll("[\\p{Cntrl}\\s]+", " ") + ")",
        "look at this line and the one before it: indentation, quotes, brackets, colons");
  }

  void tooDeep(Spot spot, int limit) {
    fault(
        spot,
        "at most " + limit + " levels of nesting",
        "more",
        "check the brackets and the indentation");
  }

  void tooManyAliases(Spot spot, int limit) {
    fault(spot, "at most " + limit + " aliases (*name)", "more", "write the values out");
  }

  void secondDocument(Spot spot) {
    fault(spot, "one plan in a file", "a second one", "put it in a file of its own");
  }

  void notOurs(Spot spot) {
    fault(
        spot,
        "a Tallyback plan",
        "no field \"tallyback-plan\"",
        "begin the file with the line \"tallyback-plan: 1\"");
  }

  void badHeader(Spot spot, String found) {
    fault(spot, "the format number 1", found, "write \"tallyback-plan: 1\"");
  }

  void newerFormat(Spot spot, String found, int known) {
    fault(
        spot,
        "plan format " + known + " or older",
        "format " + found + ", from a newer Tallyback",
        "read it with a Tallyback that is at least as new as the plan");
  }

  // Fields

  void unknownField(Spot spot, String name, Collection<String> known) {
    fault(
        spot,
        "one of the known fields",
        "the unknown field " + quote(name),
        didYouMean(name, known, "known here: " + String.join(", ", known)));
  }

  void duplicateField(Spot spot, int firstLine) {
    fault(
        spot,
        "each field once",
        "the field again (first on line " + firstLine + ")",
        "keep one of the two");
  }

  void missing(Spot spot, String example) {
    fault(spot, "this field", "nothing", "add it, for example " + example);
  }

  void emptyField(Spot spot) {
    fault(spot, "a value", "nothing", "fill it in, or take the line out");
  }

  void wrongType(Spot spot, String expected, String found, String example) {
    fault(spot, expected, found, "write it like " + example);
  }

  void notOneLine(Spot spot) {
    fault(spot, "one line of text", "several lines", "join the lines (use > in place of |)");
  }

  void notWhole(Spot spot, int min, int max, String found) {
    fault(
        spot,
        "a whole number from " + min + " to " + max,
        found,
        "write it in digits, without quotes and without a unit");
  }

  void countTooLarge(Spot spot, int max, String found) {
    fault(
        spot,
        "a count from 1 to " + max,
        found,
        "counts are spoken up to " + max + ": split the group");
  }

  void notOneOf(Spot spot, String found, Collection<String> known) {
    String all = String.join(", ", known);
    fault(spot, "one of " + all, quote(found), didYouMean(found, known, "pick one of them"));
  }

  void badId(Spot spot, String found) {
    fault(
        spot,
        "an id: lower-case letters and digits, joined by hyphens",
        quote(found),
        "write it like pump-bolts");
  }

  void duplicateId(Spot spot, String id, String what, int firstLine) {
    fault(
        spot,
        "an id of its own",
        quote(id) + ", which is already " + what + " on line " + firstLine,
        "give one of them another id (the field \"id\")");
  }

  void unknownReference(Spot spot, String id, String wanted, Collection<String> known) {
    fault(
        spot,
        "the id of " + wanted,
        quote(id) + ", which nothing has",
        didYouMean(id, known, "add it to the plan, or correct the id"));
  }

  void wrongReference(Spot spot, String id, String wanted, String what) {
    fault(
        spot, "the id of " + wanted, quote(id) + ", which is " + what, "name " + wanted + " here");
  }

  void cycle(Spot spot, List<String> ring) {
    fault(
        spot,
        "an order in which each comes after what it needs",
        "a ring: " + String.join(" -> ", ring),
        "take one of these needs out");
  }

  void contradiction(Spot spot, String first, String second, String remedy) {
    fault(spot, "either " + first + " or " + second, "both", remedy);
  }

  // Spoken names and pronunciations

  void nothingToSay(Spot spot) {
    fault(spot, "at least one spoken name", "none", "add it, for example say: [pump bolts]");
  }

  void notSayable(Spot spot, String found, String why) {
    fault(spot, "a spoken name of one to five lower-case words", quote(found), why);
  }

  void sameName(Spot spot, String name, String id, int firstLine) {
    fault(
        spot,
        "a spoken name of its own",
        quote(name) + ", which is also said for " + quote(id) + " on line " + firstLine,
        "make the two names sound different, for example by left and right");
  }

  void notPhone(Spot spot, String found) {
    fault(
        spot,
        "sounds of the CMU dictionary in capitals",
        quote(found),
        "write it like \"G R AA M AH T\"");
  }

  // Amounts

  void notAmount(Spot spot, String found, String units) {
    fault(
        spot,
        "a number and its unit",
        quote(found),
        "write it like \"2.10 L\"; units here: " + units);
  }

  void noUnit(Spot spot, String found, String units) {
    fault(spot, "a number and its unit", quote(found) + " without a unit", "add one of " + units);
  }

  void comma(Spot spot, String found) {
    fault(
        spot,
        "a number with a point",
        quote(found),
        "write 2.1, not 2,1; no marks between thousands");
  }

  void notDecimal(Spot spot, String found) {
    fault(
        spot,
        "a number that ends",
        quote(found) + ", which has no end as a decimal",
        "use halves, quarters, eighths, sixteenths ... or a decimal number");
  }

  void unknownUnit(Spot spot, String found, String units) {
    fault(spot, "a known unit", quote(found), "units here: " + units);
  }

  void doubtfulUnit(Spot spot, String found, String choices) {
    fault(spot, "one certain unit", quote(found), "say which: " + choices);
  }

  void wrongDimension(Spot spot, String found, String units) {
    fault(spot, "an amount in one of " + units, quote(found), "use one of these units");
  }

  void notPositive(Spot spot, String found) {
    fault(
        spot,
        "more than 0",
        quote(found),
        "correct the number, or take the line out if it is not known");
  }

  void negative(Spot spot, String found) {
    fault(spot, "0 or more", quote(found), "correct the number");
  }

  void outsideCircle(Spot spot, String found) {
    fault(
        spot,
        "an angle from 0° to under 360°, clockwise from twelve o'clock",
        quote(found),
        "correct the angle");
  }

  void differentUnit(Spot spot, String wanted, String found) {
    fault(spot, "the unit " + wanted + ", as beside it", found, "give it in " + wanted);
  }

  void upsideDown(Spot spot, String from, String to) {
    fault(spot, "from below to", "from " + from + " to " + to, "swap the two or correct them");
  }

  void percentOfTemperature(Spot spot, String unit) {
    fault(
        spot,
        "a tolerance in " + unit,
        "a share of a temperature",
        "give it like \"±1 " + unit + "\": a share of a temperature means nothing");
  }

  void toleranceTooLarge(Spot spot, String found) {
    fault(spot, "a tolerance smaller than the value", found, "correct the tolerance or the value");
  }

  void noLimit(Spot spot) {
    fault(spot, "from, to or both", "neither", "add at least one of them");
  }

  void levelHasMarks(Spot spot) {
    fault(
        spot,
        "a measure with a number",
        "level",
        "give the system a mark (the field \"marks\") in place of a limit");
  }

  void overHundred(Spot spot, String found) {
    fault(spot, "a share up to 100 %", quote(found), "correct it");
  }

  void adapterOnlyOnWrench(Spot spot, String kind) {
    fault(spot, "an adapter on a wrench", "one on a " + kind, "take it out or correct the kind");
  }

  void holdOnlyOfPressure(Spot spot, String measure) {
    fault(spot, "a hold of a pressure", "one of " + measure, "take it out or correct the measure");
  }

  void notDate(Spot spot, String found) {
    fault(spot, "a date", quote(found), "write it like 2026-03-31");
  }

  void notOpen(Spot spot, String found, Collection<String> known) {
    fault(
        spot,
        "fields that the manual may fill in: " + String.join(", ", known),
        quote(found),
        didYouMean(found, known, "take it out"));
  }

  void openAndGiven(Spot spot, String field) {
    fault(
        spot,
        "either a value or \"from-manual\"",
        "both for " + quote(field),
        "take " + quote(field) + " out of \"from-manual\" once its value is entered");
  }

  // Worth a second look

  void sharesExceedCapacity(Spot spot, String shares, String capacity) {
    warning(
        Weight.CHECK,
        spot,
        "drain shares that together fit the capacity of " + capacity,
        shares,
        "check the shares and the capacity");
  }

  void beforeExceedsCapacity(Spot spot, String before, String capacity) {
    warning(
        Weight.CHECK, spot, "at most the capacity of " + capacity, before, "check both amounts");
  }

  void inNoStep(Spot spot, String id) {
    warning(
        Weight.NOTE,
        spot,
        "a step that takes it off or puts it on",
        quote(id) + " in no step",
        "name it under \"off\" or \"on\" of a step if the job moves it");
  }

  void offNeverOn(Spot spot, String id, Optional<String> step) {
    warning(
        Weight.CHECK,
        spot,
        "a later step that puts it back",
        quote(id) + " only taken off" + step.map(in -> " (in " + quote(in) + ")").orElse(""),
        "name it under \"on\" of the step that puts it back");
  }

  void temporaryStays(Spot spot, String id) {
    warning(
        Weight.STOP,
        spot,
        "a step that takes the temporary item out again",
        quote(id) + " only put in",
        "name it under \"off\" of the step that takes it out");
  }
}
