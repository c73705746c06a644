package tallyback.reconcile;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tallyback.books.Books;
import tallyback.books.Standing;
import tallyback.model.Amount;
import tallyback.model.Entry;
import tallyback.model.Rational;
import tallyback.model.Statement.FluidForm;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.Level;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.StateSaid;
import tallyback.model.Statement.Tightened;
import tallyback.model.Statement.Trouble;
import tallyback.model.Unit;
import tallyback.plan.Plan.ThreadedInto;
import tallyback.plan.Plan.Torque;
import tallyback.trade.Dilution;

/**
 * Every text of the reconciler that a user may see, one entry per kind of finding. English only. A
 * word in braces is filled in by the rule. Each remedy is one sentence and begins with the safe
 * state; none gives a figure of its own.
 */
final class FindingText {

  static final String ABOUT = "said \"about\": ±15 % (common practice, no source)";
  static final String FROM_PLAN = " (plan)";
  static final String DRY_PARTS = "dry parts: ±20 % of the plan (common practice, no source)";
  static final String SAID_HOT = "said hot: 60 to 100 °C (common practice, no source)";
  static final String MACHINE_WARM =
      "out of a warm machine, no temperature said: 20 to 100 °C (common practice, no source)";
  static final String BY_CLASS =
      " (ISO 6789:2003 as reviewed in a tool maker's manual; the plan gives none)";
  static final String NOTHING_PROMISED =
      " (plan), and nothing is promised below a fifth of its maximum (ISO 6789:2003 as reviewed in"
          + " a tool maker's manual)";
  static final String DENSITY_OF_WATER = "weighed, water at 20 °C (Kell 1975)";
  static final String DENSITY_OF_CONCENTRATE =
      "weighed, concentrate 1.112 kg to 1.14 kg a litre (JIS K 2234; upper end common practice, no"
          + " source)";
  static final String BY_LABEL = "by its label";
  static final String STRENGTH_UNREAD =
      "strength not read: ±half of it (common practice, no source)";

  static final String SHOP_TEMPERATURE =
      "no temperature said: 5 to 35 °C as in the shop (common practice, no source)";
  static final String CONTENT_AS_CAPACITY =
      "content before not said: as the capacity, ±10 % (common practice, no source)";
  static final String STRENGTH_NOT_READ =
      "strength before not read: as the label, ±50 % of it (common practice, no source)";
  static final String NEAT_CONCENTRATE = "concentrate: 95 to 100 % (JIS K 2234)";
  static final String BEYOND_TABLES = "stronger than the tables go";
  static final String MIX_AFTER_MANUAL = "mix after the maker's manual";
  static final String DRAIN_AGAIN = "drain and fill again";
  static final String SUM_AT_20 = " Volumes read warm are brought to 20 °C.";
  static final String BY_EYE = "spilled, by eye: ±50 % (common practice, no source)";
  static final String VESSEL_NOT_SAID =
      "vessel not said: ±5 % as for a shop jug (common practice, no source)";
  static final String NO_READING = "nothing was read there";
  static final String NO_GAUGE = "gauge not said: no tolerance granted";
  static final String WRENCH_NOT_SAID = "wrench not said: no tolerance granted";
  static final String THE_MARK = "the mark";
  static final String PRESSURE = "pressure";
  static final String NOTHING = "nothing";
  static final String TIGHT = "tight";
  static final String TIGHT_SOMEHOW = "torqued or tight by feel (no plan says more)";
  static final String TIGHT_NEVER_SAID = "tightness never said";
  static final String TIGHT_NO_VALUE = "said to be torqued, without a value and its unit";
  static final String ABOVE_RANGE = " above the range";
  static final String BELOW_RANGE = " below the range";
  static final String TOO_HIGH =
      "Machine stopped: if the wrench was really set so, bolt and thread are suspect: renew or"
          + " inspect them, torque again to the maker's figure and have a second person check.";
  static final String TOO_LOW =
      "Machine stopped: torque the whole group again to the maker's figure, or correct what was"
          + " said.";
  static final String OUT_WITHOUT_NUMBER = "; said to be out, without a number";
  static final String INTO_MACHINE = "into the machine";
  static final String NOBODY_SAID_WHERE = "nobody said where";
  static final String STRETCH_BOLT = "a stretch bolt is new each time";
  static final String SINGLE_USE = "new each time";
  static final String FLUID_NOT_SUMMED = "which system was not said";
  static final String GROUP_NOT_SAID = "fasteners, group not said";
  static final String TIMES_TOLD = "times as told";
  static final String TIMES_OF_TELLING = "only said in this order; the times are those of telling";
  static final String CAP = "cap";
  static final String GUARDS = "guards";
  static final String BATTERY = "battery";
  static final String NOT_JUDGED_PLUG = "drain or filler plug";
  static final String NOT_JUDGED_HOLLOW = "hollow bolt";
  static final String NOT_JUDGED_STRETCH = "stretch bolt";
  static final String NOT_JUDGED_UNKNOWN = "thread or property class not in the plan";
  static final String LEAK = "leak";
  static final String CLOCK = "clock";
  static final String NOT_RUN_YET = "not run yet";
  static final String MACHINE = "machine";
  static final String JOB = "job";
  static final String SHEARED = "sheared, stump left";
  static final String NO_TORQUE = "it is no torque, so it says nothing about tightness";
  static final String LEVEL_NOT_READ_AGAIN = "topped up, and not read again since";

  static final String SUM_NOTHING_SAID = "Nothing was said about it.";
  static final String SUM_SETTLED =
      "The level stood at the cold mark twice with nothing added between: that outranks the jugs,"
          + " whose sum is ";
  static final String SUM_INCOMPLETE =
      "Some amounts were not said, so the sum is not whole; without them it is ";
  static final String SUM_CANNOT_TELL =
      "The jugs can't tell: their tolerance is wider than what matters; the level at the cold mark"
          + " decides. Sum ";
  static final String SUM_AGREES = "In as much as out, as far as the jugs can tell: ";
  static final String SUM_SHORT = "More came out than went in: short ";
  static final String SUM_EXCESS = "More went in than came out: over by ";

  static final String UNCHECKED_NOTHING_SAID = "nothing was said about the machine yet";
  static final String UNCHECKED_TOOLS = "tools, pins and rags out of the bay";
  static final String UNCHECKED_TEST_RUN = "a test run";
  static final String UNCHECKED_LEAK = "a look for leaks after the test run";

  private static final DateTimeFormatter HOUR_AND_MINUTE =
      DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  private static final Map<String, FindingText> TEXTS = new LinkedHashMap<>();

  private final String expected;
  private final String found;
  private final @Nullable String difference;
  private final @Nullable String tolerance;
  private final String remedy;

  private FindingText(
      String expected,
      String found,
      @Nullable String difference,
      @Nullable String tolerance,
      String remedy) {
    this.expected = expected;
    this.found = found;
    this.difference = difference;
    this.tolerance = tolerance;
    this.remedy = remedy;
  }

  private static void text(
      String kind,
      String expected,
      String found,
      @Nullable String difference,
      @Nullable String tolerance,
      String remedy) {
    TEXTS.put(kind, new FindingText(expected, found, difference, tolerance, remedy));
  }

  static {
    text(
        "left-in-tray",
        "all {count} on the machine",
        "{on} on the machine, {tray} in the tray",
        "{tray} left over",
        null,
        "Machine stopped: fit what is in the tray, or say by name where it went.");
    text(
        "not-connected",
        "connected again",
        "taken off and never said to be back on",
        "{tray} open",
        null,
        "Machine stopped: connect it, pull at it gently to prove that it holds, and say so.");
    text(
        "missing",
        "all {count} on the machine",
        "{on} on the machine; lost {lost}, scrapped {scrap}",
        "{gone} missing",
        null,
        "Machine stopped: find it or fit a new one, and make sure that none lies in the machine.");
    text(
        "dropped-in-machine",
        "nothing loose in the machine",
        "{number} dropped ({where}), not found",
        null,
        null,
        "Don't start it and don't turn it over: find what fell and say where it was.");
    text(
        "more-on-than-off",
        "{count} on the machine",
        "{on} by what was said",
        "{more} more than there are places",
        null,
        "Machine stopped: count them; either a number was heard wrong or one belongs elsewhere.");
    text(
        "more-off-than-plan",
        "{count} on the machine at the start",
        "{off} said to be off",
        null,
        null,
        "Machine stopped: count what is in the tray; either the plan or the number said is wrong.");
    text(
        "lengths-swapped",
        "each length in its own place: {many} {manyLength}, {few} {fewLength}",
        "{more} {many} more on than there are places; {left} {few} left in the tray",
        null,
        null,
        "Machine stopped: take them out, measure them and put each length where it belongs; one too"
            + " long can break the casting, one too short strips.");
    text(
        "wrong-head-size",
        "head size {head}",
        "{said} said",
        null,
        null,
        "Machine stopped: compare the fastener with the plan; one of another group may sit here.");
    text(
        "head-unusual",
        "a head usual on {thread}: {usual} mm",
        "{said} said",
        null,
        "ISO 4014 and 4017, DIN 931, JIS B 1180 small, ISO 4162 and EN 1665 flange heads",
        "Machine stopped: compare the fastener with the plan; other heads are made too.");
    text(
        "old-put-back",
        "{what}",
        "the old one was put back",
        null,
        null,
        "Machine stopped and cold, pressure off: take it out again and fit a new one.");
    text(
        "renewal-unsaid",
        "{count} new",
        "{new} said to be new",
        null,
        null,
        "Machine stopped: look whether it is new and say so, or fit a new one.");
    text(
        "not-carried-over",
        "moved over from the old part",
        "nobody said so",
        null,
        null,
        "Machine stopped: look at the new part, and fetch it from the old one before that is"
            + " thrown away.");
    text(
        "temporary-still-in",
        "out again",
        "{in} still in{uncounted}",
        null,
        null,
        "Don't start it and don't turn it over: take it out and say so.");
    text(
        "alignment-outside",
        "at {angle}",
        "at {said}",
        "{difference} off",
        "±{tolerance} (plan)",
        "Machine stopped: don't turn it over before the marks agree with the maker's manual.");
    text(
        "alignment-unsaid",
        "at {angle}",
        "never said",
        null,
        null,
        "Machine stopped: look where the mark points and say it.");
    text(
        "said-not-counted",
        "all {count} counted back on",
        "\"{words}\": said, not counted; {tray} still in the tray by the count",
        null,
        null,
        "Machine stopped: count them on the machine and look into the tray, then say the number.");
    text(
        "not-in-plan",
        "everything said has its place in the plan",
        "not matched: {tray}",
        null,
        null,
        "Machine stopped: say which group or system of the plan it is, or what became of it.");
    text(
        "unit-slip",
        "{spec} ({source})",
        "{value}, which is {inMakersUnit}; {number} would be right in {units}",
        "{difference}",
        "{wrench}",
        "{remedy}");
    text("torque-outside", "{spec} ({source})", "{value}", "{difference}", "{wrench}", "{remedy}");
    text(
        "torque-borderline",
        "{spec} ({source})",
        "{value}",
        "{difference}",
        "{wrench}: the wrench can't tell",
        "Machine stopped: torque it again to the middle of the maker's range.");
    text(
        "wrench-range",
        "a wrench whose range takes in the value",
        "{value} with the {wrench}",
        null,
        "range of the {wrench}: {range}",
        "Machine stopped: torque it again with a wrench made for that value.");
    text(
        "torque-unsaid",
        "{spec}",
        "{found}",
        null,
        null,
        "Machine stopped: torque to the maker's figure and say the value and its unit.");
    text(
        "tightness-unsaid",
        "torqued, or said to be tight by feel",
        "{tight} of {count} said to be tight; told: {told}",
        null,
        null,
        "Machine stopped: tighten them to the maker's figure and say the value and its unit, or say"
            + " that they are tight by feel.");
    text(
        "order-not-reversed",
        "\"{need}\" before it, which had come off later",
        "it went back first",
        null,
        "the order of the tear-down, no more than a suggestion",
        "Machine stopped: look whether all that lies beneath is on and tight; else leave it as it"
            + " is.");
    text(
        "hand-tight-only",
        "{spec}",
        "{number} of {count} hand tight: not finished",
        null,
        null,
        "Don't start it: tighten them to the maker's figure and say so.");
    text(
        "tight-by-feel",
        "{spec}",
        "{number} of {count} by feel",
        null,
        "by feel: ±35 % of preload (MIL-HDBK-60, Table I)",
        "Machine stopped: torque them with a wrench to the maker's figure.");
    text(
        "torque-partly",
        "{spec} on all {count}",
        "told: {told}; that covers {covered} counted on the machine",
        "{left} not covered",
        null,
        "Machine stopped: torque the others to the maker's figure, or say the number again.");
    text(
        "passes-missing",
        "{passes} passes",
        "pass {said} said",
        null,
        null,
        "Machine stopped: tighten in all the passes the maker asks for, in his sequence.");
    text(
        "angle-unsaid",
        "turned {angle} further after the torque, all {count}",
        "said for {done}",
        null,
        null,
        "Machine stopped: turn them through the maker's angle, or say that it was done.");
    text(
        "angle-differs",
        "turned {angle} further after the torque",
        "{said}",
        null,
        "none in the plan",
        "Don't start it: stretch bolts turned wrongly are renewed; follow the maker's manual.");
    text(
        "overloaded",
        "preload below the proof load of {bolt}: {proof}",
        "{value}: {least} even with nut factor {highestFactor}",
        null,
        "T / (K d) with K {lowestFactor} to {highestFactor} (Shigley; Bickford and Nassar; NASA"
            + " TM-106943); proof load after ISO 898-1 or SAE J429, within 1 %",
        "Machine stopped: bolt and thread are suspect until inspected: renew the bolt, look at the"
            + " thread, and torque to the maker's figure.");
    text(
        "load-high",
        "preload below the proof load of {bolt}: {proof}",
        "{value}: {usual} with the usual nut factor {usualFactor}, {least} with {highestFactor}",
        null,
        "T / (K d) with K {lowestFactor} to {highestFactor} (Shigley; Bickford and Nassar; NASA"
            + " TM-106943); proof load after ISO 898-1 or SAE J429, within 1 %",
        "Machine stopped: look whether the maker asks for it, and whether the class of the bolt is"
            + " the right one.");
    text(
        "adapter-unsaid",
        "said whether at the wrench or at the bolt",
        "{value} with the {wrench}",
        "shown by the wrench it is {atBolt} at the bolt; at the bolt it is a wrench set to"
            + " {setting}",
        "wrench × (L + E cos a) / L (US Army TM 9-2350-261-20-1), lengths from the plan",
        "Machine stopped: torque again so that the maker's figure is at the bolt, with a plain"
            + " wrench if one fits, or have a second person check.");
    text(
        "tighten-again-unsaid",
        "{spec} once more after running warm",
        "not said since it ran at {when}",
        null,
        null,
        "Machine stopped, as cold or warm as the maker says: tighten again to his figure and say"
            + " so.");
    text(
        "fluid-short",
        "{expected}",
        "{in} in",
        "short {amount} ± {uncertainty}",
        "k = 2, root sum of squares after JCGM 100:2008: {origin}, each read to the last figure"
            + " said",
        "Stopped and cold, before any cap is opened: read the level, top up as the maker says, and"
            + " mind that air may still be inside.");
    text(
        "fluid-excess",
        "{expected}",
        "{in} in",
        "over by {amount} ± {uncertainty}",
        "k = 2, root sum of squares after JCGM 100:2008: {origin}, each read to the last figure"
            + " said",
        "Stopped and cold: read the level at its mark; it was low before, or it is too full now.");
    text(
        "drain-low",
        "usually {share}",
        "{out}",
        "{amount} less than usual",
        "± {uncertainty}, k = 2 ({origin}); found when below half of the usual (common practice, no"
            + " source)",
        "Stopped and cold: look whether the drain is blocked or was not opened; old fluid may still"
            + " be inside.");
    text(
        "more-out-than-holds",
        "at most the book capacity of {capacity}",
        "{out} out",
        "{amount} more ± {uncertainty}",
        "k = 2, root sum of squares after JCGM 100:2008: {origin}, each read to the last figure"
            + " said",
        "Don't start it: look what came out; it was too full, something else is mixed in, or an"
            + " amount was heard wrong.");
    text(
        "wrong-fluid",
        "{planned}",
        "{said}",
        null,
        null,
        "Don't start it: drain it again and fill what the maker asks for, after his manual.");
    text(
        "wrong-form",
        "{planned}",
        "{said} poured in",
        null,
        null,
        "Stopped and cold: measure the strength of what is inside and say it before it goes to"
            + " work.");
    text(
        "mixture-weak",
        "{limit} (plan)",
        "{strength}",
        "{difference}; {pour}",
        "k = 2, root sum of squares after JCGM 100:2008: {origin}; freezing points after ASHRAE and"
            + " Melinder",
        "Stopped and cold: measure the strength before it goes out into the frost, and mix it"
            + " anew.");
    text(
        "mixture-strong",
        "{limit} (plan)",
        "{strength}",
        "{difference}; {pour}",
        "k = 2, root sum of squares after JCGM 100:2008: {origin}; freezing points after ASHRAE and"
            + " Melinder",
        "Stopped and cold: measure the strength, and mix it anew if it is so.");
    text(
        "old-fluid-left",
        "at most {most} old fluid (plan)",
        "about {left} % ± {uncertainty} % by what was drained and poured",
        null,
        "k = 2, root sum of squares after JCGM 100:2008, mixed perfectly: {origin}",
        "Stopped and cold: drain and fill once more if the maker asks for it; {rounds}.");
    text(
        "amount-unsaid",
        "an amount",
        "{what}, no amount said",
        null,
        null,
        "Machine stopped: say how much it was, or that nobody knows.");
    text(
        "level-below-mark",
        "at {mark}",
        "below it at {when}",
        null,
        null,
        "Don't start it: let it cool, find out where it went, top up to the mark and read again.");
    text(
        "level-fallen",
        "steady at {mark} over two readings with nothing added between",
        "{found}",
        null,
        null,
        "Stopped and cold: read it twice more with a run between, and look for leaks, engine"
            + " stopped.");
    text(
        "pressure-fallen",
        "{first} held{allowed}",
        "{last} after {minutes} min{temperatures}",
        "{drop} less ± {uncertainty}",
        "k = 2, root sum of squares after JCGM 100:2008: {origin}, each read to the last figure"
            + " said",
        "Stopped and cold: look for the leak by eye, let the pressure off, put it right and test"
            + " again.");
    text(
        "level-read-hot",
        "read cold at {mark}",
        "read hot at {when}: not comparable",
        null,
        null,
        "Stopped and cold, before any cap is opened: read it again.");
    text(
        "hold-not-comparable",
        "{first} held at one temperature",
        "{last} at the end{temperatures}: not comparable",
        "the change of temperature alone makes {change} in shut-in air",
        "absolute pressure goes with absolute temperature (ideal gas); more than the gauge can"
            + " tell",
        "Stopped and cold: let the pressure off, wait until the temperature stays, and test"
            + " again.");
    text(
        "hold-too-short",
        "held for {wanted} min (plan)",
        "{held} min between the first reading and the last",
        null,
        null,
        "Stopped and cold: hold the pressure as long as the maker asks for, and read it again.");
    text(
        "reading-outside",
        "{limit} (plan)",
        "{value}",
        "{beyond} outside",
        "{origin}",
        "Stop the machine and let it cool: find the cause after the maker's manual, then read"
            + " again.");
    text(
        "step-before-need",
        "\"{need}\" done first",
        "begun at {begun}; \"{need}\" done at {done}",
        null,
        "{how}",
        "Machine stopped: look whether the work had to be done again in the right order.");
    text(
        "step-not-done",
        "done",
        "never mentioned",
        null,
        null,
        "Machine stopped: do it, or say that it was done or left out.");
    text(
        "step-not-finished",
        "done",
        "begun, never said to be finished",
        null,
        null,
        "Machine stopped: finish it and say so.");
    text(
        "caution-passed",
        "its cautions understood before it",
        "gone on at {when} without saying so",
        null,
        null,
        "Machine stopped: read the cautions of the step before going on with it.");
    text(
        "step-redone",
        "done once",
        "done again at {when}{resting}",
        null,
        null,
        "Machine stopped: look whether what was done after the first time still holds.");
    text(
        "step-skipped",
        "done",
        "left out on purpose",
        null,
        null,
        "Machine stopped: make sure that it may be left out, and tell the owner.");
    text(
        "state-unsaid",
        "\"{state}\" said before it began",
        "not said before {when}",
        null,
        null,
        "Stop, make the machine safe as the plan asks, and look at what was done without it.");
    text(
        "cap-opened-hot",
        "opened only when cold",
        "opened at {when}, last said: {warmth}",
        null,
        null,
        "Keep away and leave it to cool with the engine stopped: a hot system scalds.");
    text(
        "run-without-guards",
        "guards on before it runs",
        "running at {when} with the guards off",
        null,
        null,
        "Stop the engine and wait until everything stands still, then fit the guards.");
    text(
        "not-turned-by-hand",
        "turned over by hand after timing work, before it runs (timing work by its name; common"
            + " practice, no source)",
        "fitted at {fitted}, never said to be turned by hand since; {run}",
        null,
        null,
        "Don't start it: key out, turn it over by hand as the maker says, feel that nothing"
            + " touches, and say so.");
    text(
        "battery-on-early",
        "battery on last",
        "on at {when}, work went on until {last}",
        null,
        null,
        "Take the battery's earth lead off again and look at what was touched since.");
    text(
        "half-tight-over-pause",
        "the whole group tightened before a long pause, or all of it again after",
        "{done} of {count} finished when work stopped at {when} ({lasted})",
        null,
        "long: {least} min or more, the night, or from a closing to a visit (common practice, no"
            + " source)",
        "Machine stopped: go over the whole group again to the maker's figure and say so.");
    text(
        "clock-set-back",
        "each entry noted later than the one before",
        "noted at {later}, after one noted at {earlier}",
        "{minutes} min back",
        "up to {least} min is left aside (clocks are put right now and then; common practice, no"
            + " source)",
        "Machine stopped: set the clock right, and say again when things happened where the order"
            + " matters.");
    text(
        "leak-seen",
        "no leak",
        "leak seen at {when}",
        null,
        null,
        "Stop the engine, let it cool and the pressure off, put the leak right, and look again.");
    text(
        "problem-open",
        "sound",
        "{trouble}, seen at {when}",
        null,
        null,
        "Machine stopped: put it right or tell the owner; he must know either way.");
    text(
        "entry-unconfirmed",
        "confirmed",
        "\"{words}\": not confirmed",
        null,
        null,
        "Machine stopped: look again and say it once more; until then it settles nothing.");
    text(
        "not-understood",
        "everything said understood",
        "{things} said {was} not understood: at {times}",
        null,
        null,
        "Machine stopped: listen to {it}, say again what counts, then say \"never mind what you"
            + " missed\".");
    text(
        "unit-unsaid",
        "a number with its unit",
        "\"{words}\": {number} of what?",
        null,
        null,
        "Machine stopped: say the value with its unit; it counts for nothing until then.");
    text(
        "amount-unusable",
        "an amount that can be counted",
        "\"{words}\": {why}",
        null,
        null,
        "Machine stopped: say it again, or withdraw it.");
    text(
        "edit-without-effect",
        "an entry that can be changed",
        "\"{words}\": {why}",
        null,
        null,
        "Machine stopped: look at the list of entries and say anew what holds.");
    text(
        "topped-up-more",
        "{last} last time",
        "{now} this time",
        "{more} more than last time ± {uncertainty}",
        "k = 2, of both jobs; {jobs} earlier jobs are too few to say more",
        "Stopped and cold: nothing to do for it now; read the level again before long.");
    text(
        "topped-up-unusual",
        "{middle} as the middle of {jobs} earlier jobs",
        "{now} this time",
        "{more} more ± {uncertainty}",
        "modified z-score above 3.5, median deviation {spread} (NIST/SEMATECH e-Handbook 1.3.5.17)",
        "Stopped and cold: look for where it goes, and tell the owner to watch the level.");
    text(
        "topped-up-drifting",
        "{mean} as in the first five jobs",
        "{now} this time; moving average {average}",
        "average up to {reach} off; summed up {sum}, limit {limit}",
        "EWMA, weight 0.3, 3 sigma, and CUSUM, slack 0.5 and limit 5 sigma (NIST/SEMATECH"
            + " e-Handbook 6.3.2); {jobs} earlier jobs",
        "Stopped and cold: it sinks job after job; look for where it goes, and tell the owner to"
            + " watch the level.");
    text(
        "left-half-open",
        "closed up, or marked as open",
        "left at {when}; things still open: {number}",
        null,
        null,
        "Hang a do-not-start tag on it, key out, and read out what is open to whoever goes on.");
  }

  static FindingText of(String kind) {
    FindingText text = TEXTS.get(kind);
    if (text == null) {
      throw new IllegalStateException("no text for findings of kind " + kind);
    }
    return text;
  }

  static Set<String> kinds() {
    return TEXTS.keySet();
  }

  String expected(Map<String, String> values) {
    return fill(expected, values);
  }

  String found(Map<String, String> values) {
    return fill(found, values);
  }

  @Nullable String difference(Map<String, String> values) {
    return difference == null ? null : fill(difference, values);
  }

  @Nullable String tolerance(Map<String, String> values) {
    return tolerance == null ? null : fill(tolerance, values);
  }

  String remedy(Map<String, String> values) {
    return fill(remedy, values);
  }

  /** Fills in one pass, so that braces in what people said stay as they are. */
  private static String fill(String template, Map<String, String> values) {
    StringBuilder filled = new StringBuilder();
    int from = 0;
    for (int open = template.indexOf('{'); open >= 0; open = template.indexOf('{', from)) {
      int close = template.indexOf('}', open);
      String name = template.substring(open + 1, close);
      String value = values.get(name);
      if (value == null) {
        throw new IllegalStateException("nothing to fill in for " + name + " in: " + template);
      }
      filled.append(template, from, open).append(value);
      from = close + 1;
    }
    return filled.append(template.substring(from)).toString();
  }

  /** The time of day where the shop is, such as "10:05". */
  static String when(Standing said) {
    return clockTime(said.entry());
  }

  /** The times of some entries, oldest first. */
  static String times(List<Standing> said) {
    return said.stream()
        .map(Standing::entry)
        .sorted(Comparator.comparing(Entry::happenedAt).thenComparingLong(Entry::seq))
        .map(FindingText::clockTime)
        .distinct()
        .collect(Collectors.joining(", "));
  }

  static String clockTime(Entry entry) {
    return HOUR_AND_MINUTE.format(entry.happenedAt().atZone(entry.zone()));
  }

  static String notedAt(Entry entry) {
    return HOUR_AND_MINUTE.format(entry.recordedAt().atZone(entry.zone()));
  }

  /** For example "for 45 min" or "for the night". */
  static String lasted(Pauses.Pause pause) {
    return pause.closed()
        ? "the job was closed"
        : pause.overnight() ? "for the night" : "for " + pause.lasted().toMinutes() + " min";
  }

  static String runAt(At<StateSaid> run) {
    return "run at " + when(run.said());
  }

  /** What rested on a step that was done again; empty when nothing did. */
  static String doneInBetween(List<String> steps) {
    return steps.isEmpty()
        ? ""
        : "; \"" + String.join("\", \"", steps) + "\" came after it and was done before that";
  }

  static String singleUseByName(String sort) {
    return "by its name: " + sort + ", new each time (common practice, no source)";
  }

  static String entryAt(Entry entry) {
    return "entry of " + clockTime(entry);
  }

  /** A span or a value without offset, given in base units, rounded for showing. */
  static String inUnit(Rational base, Unit unit) {
    BigDecimal value = base.dividedBy(unit.factor()).toBigDecimal();
    int decimals = Math.max(0, 3 - Math.max(1, value.precision() - value.scale()));
    BigDecimal rounded = value.setScale(decimals, RoundingMode.HALF_UP).stripTrailingZeros();
    BigDecimal plain = rounded.scale() < 0 ? rounded.setScale(0) : rounded;
    return new Amount(plain, unit).toString();
  }

  /** For example "24 N·m ±2 N·m". */
  static String torque(Torque spec) {
    boolean even = spec.plus().base().compareTo(spec.minus().base()) == 0;
    String passes = spec.passes() > 1 ? ", " + spec.passes() + " passes" : "";
    String angle = spec.angle() == null ? "" : ", then " + spec.angle();
    return spec.value()
        + (even ? " ±" + spec.plus() : " +" + spec.plus() + " −" + spec.minus())
        + passes
        + angle;
  }

  /** Clock position of an angle, such as "12 o'clock", or degrees where it is none. */
  static String clock(Amount angle) {
    if (angle.unit() != Unit.DEGREE) {
      return angle.toString();
    }
    BigDecimal[] hours = angle.value().divideAndRemainder(BigDecimal.valueOf(30));
    if (hours[1].signum() != 0) {
      return angle + " from 12 o'clock";
    }
    int hour = Math.floorMod(hours[0].intValue(), 12);
    return (hour == 0 ? 12 : hour) + " o'clock";
  }

  static String range(@Nullable Amount from, @Nullable Amount to) {
    if (from == null) {
      return to == null ? "any" : "at most " + to;
    }
    return to == null ? "at least " + from : from + " to " + to;
  }

  static String broughtTo20(Amount temperature) {
    return "brought from " + temperature + " to 20 °C";
  }

  static String warmUnknownFluid() {
    return "read warm, and the plan doesn't say what the fluid is made of: as much as oil grows"
        + " (API MPMS 11.1)";
  }

  static String sumContent(
      String before, String after, String uncertainty, @Nullable Amount capacity) {
    return " It held "
        + before
        + " before by the plan; by what was said it holds "
        + after
        + " ± "
        + uncertainty
        + (capacity == null ? "" : " of " + capacity)
        + " now.";
  }

  static String sumFlushWater(String litres, String uncertainty) {
    return " About " + litres + " ± " + uncertainty + " of it is flush water that stayed inside.";
  }

  static String sumDry(String litres) {
    return " New parts that went in dry hold " + litres + " of it by the plan.";
  }

  /** For example "0.30 L more in than out". */
  static String toppedUp(Rational litres) {
    String size = Books.shown(litres.abs(), 2).toString();
    if (litres.signum() == 0) {
      return "as much in as out";
    }
    return size + (litres.signum() > 0 ? " more in than out" : " more out than in");
  }

  static String temperatures(Amount first, Amount last) {
    return ", " + first + " at the first reading and " + last + " at the last";
  }

  static String allowedDrop(Amount drop) {
    return ", at most " + drop + " less (plan)";
  }

  static String mixture(String byVolume, @Nullable String byMass, @Nullable String freezesAt) {
    String mass = byMass == null ? "" : " (" + byMass + " % by mass)";
    String freezes = freezesAt == null ? "" : ", freezes at " + freezesAt + " °C";
    return "by what was poured about " + byVolume + " % by volume" + mass + freezes;
  }

  static String tooFar(String amount, String uncertainty, boolean kelvin, boolean weak) {
    String unit = kelvin ? " K" : " % by volume";
    return amount + " ± " + uncertainty + unit + (weak ? " too weak" : " too strong");
  }

  static String recipe(Dilution.Recipe recipe, Function<Rational, String> litres) {
    if (recipe instanceof Dilution.Pour pour) {
      return "by arithmetic it is reached with " + pour(pour, litres);
    }
    if (recipe instanceof Dilution.DrainFirst first) {
      return "by arithmetic filling up can't reach it: "
          + litres.apply(first.drain())
          + " must come out first, then "
          + pour(first.then(), litres)
          + " in";
    }
    return "no filling with this concentrate gets there";
  }

  private static String pour(Dilution.Pour pour, Function<Rational, String> litres) {
    List<String> parts = new ArrayList<>();
    if (pour.concentrate().signum() > 0) {
      parts.add(litres.apply(pour.concentrate()) + " of concentrate");
    }
    if (pour.water().signum() > 0) {
      parts.add(litres.apply(pour.water()) + " of water");
    }
    return parts.isEmpty() ? "nothing" : String.join(" and ", parts);
  }

  static String moreRounds(int rounds) {
    return "by arithmetic "
        + rounds
        + " more like it bring"
        + (rounds == 1 ? "s" : "")
        + " it there";
  }

  static String inAsMuchAsOut(String out, @Nullable String dry) {
    return "in as much as out: " + out + (dry == null ? "" : ", and " + dry + " for the dry parts");
  }

  /** For example "N·m or lbf·in". */
  static String units(Collection<Unit> units) {
    return String.join(" or ", units.stream().map(Unit::symbol).toList());
  }

  static String numbers(Collection<Integer> numbers) {
    return String.join(", ", numbers.stream().map(String::valueOf).toList());
  }

  /** For example "+2" or "−3" in the tray. */
  static String signed(int tray) {
    if (tray == 0) {
      return "said without a number";
    }
    return tray > 0 ? tray + " in the tray" : -tray + " more back on than came off";
  }

  /** What was told of tightness, such as "4 torqued to 24 N·m with pass 2". */
  static String tightness(Tightened told, @Nullable String torque) {
    List<String> words = new ArrayList<>();
    if (told.count() != null) {
      words.add(told.count().toString());
    } else if (told.lump()) {
      words.add("all");
    }
    words.add(
        switch (told.state()) {
          case STARTED -> "started by hand";
          case HAND_TIGHT -> "hand tight";
          case BY_FEEL -> "tight by feel";
          case TORQUED -> "torqued";
          case ANGLE_DONE -> "angle done";
          case CHECKED -> "checked";
        });
    if (told.torque() != null) {
      words.add("to " + torque + (told.torque().unitUnsaid() ? " (unit not said)" : ""));
    }
    if (told.angle() != null) {
      words.add(told.angle().toString());
    }
    if (told.pass() != null) {
      words.add("(pass " + told.pass() + ")");
    }
    if (told.order() != null) {
      words.add(
          switch (told.order()) {
            case IN_SEQUENCE -> "in sequence";
            case CROSSWISE -> "crosswise";
          });
    }
    return String.join(" ", words);
  }

  static String levelFell(At<Measured> before, At<Measured> after) {
    return when(before.said())
        + " "
        + level(before)
        + ", "
        + when(after.said())
        + " "
        + level(after);
  }

  private static String level(At<Measured> reading) {
    Level level = reading.statement().level();
    if (level == null) {
      return "";
    }
    return switch (level) {
      case BELOW -> "below the mark";
      case AT -> "at the mark";
      case ABOVE -> "above the mark";
    };
  }

  static String move(FluidMove move) {
    return switch (move) {
      case OUT -> "drained";
      case IN -> "filled";
      case LOST -> "spilled";
      case PUT_BACK -> "put back";
      case TO_WASTE -> "to waste";
      case BLED_OUT -> "pushed out while bleeding";
      case LEFT_IN_PART -> "left in the old part";
    };
  }

  static String form(FluidForm form) {
    return switch (form) {
      case CONCENTRATE -> "neat concentrate";
      case PREMIX -> "ready mixed";
      case WATER -> "water";
    };
  }

  static String trouble(Trouble trouble) {
    return trouble == Trouble.UNSPECIFIED ? "a problem" : lower(trouble.name());
  }

  static String state(MachineState state) {
    return switch (state) {
      case BATTERY_OFF -> "battery off";
      case BATTERY_ON -> "battery on";
      case ON_STANDS -> "on stands";
      case ON_WHEELS -> "on its wheels";
      case CHOCKED -> "wheels chocked";
      case IMPLEMENT_DOWN -> "implement down";
      case TURNED_BY_HAND -> "turned over by hand";
      case LAMPS_OUT -> "warning lamps out";
      case TOOLS_OUT -> "tools out";
      case EYES_COVERED -> "eye protection on";
      default -> lower(state.name());
    };
  }

  static String measure(Measure measure) {
    return lower(measure.name());
  }

  private static String lower(String name) {
    return name.toLowerCase(Locale.ROOT).replace('_', ' ');
  }

  static String uncheckedTemporary(String label) {
    return "whether the " + label + " went in and came out again";
  }

  static String uncheckedItem(String label) {
    return label + ": nobody mentioned it";
  }

  static String uncheckedCount(String label) {
    return label + ": step done, nobody counted off and on";
  }

  static String uncheckedTightness(String label) {
    return label + ": how tight (the plan gives no torque)";
  }

  static String uncheckedOpenTightness(String label) {
    return label + ": how tight (the plan leaves the torque to your manual)";
  }

  static String uncheckedOpenTorques(List<String> labels) {
    return "torque against the manual, whose figure is not in the plan: "
        + String.join(", ", labels);
  }

  static String openCountUnsaid(String label, int counted) {
    return label
        + ": how many? Said to be off without a number"
        + (counted == 0 ? "" : ", and " + counted + " with one");
  }

  static String openMoreBack(String label, int off, int on) {
    return label + ": how many? " + off + " came off and " + on + " went back";
  }

  static String openOnceMore(String label, int most, int again) {
    return label
        + ": how many? "
        + most
        + " came off and went back, and later "
        + again
        + ": of the same, or others?";
  }

  static String openOnlyBack(String label, int on) {
    return label + ": how many? " + on + " went on, and nobody said that any came off";
  }

  static String openTooMany(String label, int count) {
    return label + ": how many? " + count + " by what was said, more than a plan can count";
  }

  static String openAgainstPlan(String label, int planned, int told) {
    return label + ": how many? The plan says " + planned + ", and " + told + " came off";
  }

  static String openGroup(Standing said) {
    return "which are meant? \"" + said.entry().words() + "\", " + when(said);
  }

  static String openName(String label) {
    return label + ": what is it called? Say \"name " + label + "\" and then its name";
  }

  static String threadInto(ThreadedInto into) {
    return "thread in " + lower(into.name());
  }

  static String atWrenchAndBolt(Amount atWrench, String atBolt) {
    return atWrench + " at the wrench, which is " + atBolt + " at the bolt";
  }

  static String atBoltAndWrench(Amount atBolt, String atWrench) {
    return atBolt + " at the bolt, which is " + atWrench + " at the wrench";
  }

  static String densityOfPlan(Amount litre) {
    return "weighed, a litre is " + litre + " (plan)";
  }

  static String densityOfMixture(String percent, String strength) {
    return "weighed, glycol mixture of "
        + percent
        + " % at 20 °C (ASHRAE Fundamentals 2001), "
        + strength;
  }

  static String notJudgedUnknown(int groups) {
    return groups + (groups == 1 ? " group (" : " groups (") + NOT_JUDGED_UNKNOWN + ")";
  }

  static String uncheckedLoad(List<String> groups) {
    return "overload, not judged: " + String.join(", ", groups);
  }

  static String uncheckedSequence(String label) {
    return label + ": whether in the maker's sequence";
  }

  static String uncheckedAgain(String label, Amount after) {
    return label + ": tightened again after " + after + " (tell the owner)";
  }

  static String uncheckedWrench(String label) {
    return label + ": with which wrench";
  }

  static String uncheckedLevel(String label) {
    return label + ": level at the cold mark after the test run";
  }

  static String uncheckedJugs(String label) {
    return label + ": whether it is full (the jugs can't tell)";
  }

  static String uncheckedCapacity(String label) {
    return label + ": sum against capacity (the plan gives none)";
  }

  static String uncheckedWaste(String label, String litres) {
    return label + ": where the " + litres + " caught went";
  }

  static String uncheckedReading(String label, Measure measure) {
    return label + ": " + lower(measure.name()) + " (the plan gives a limit)";
  }
}
