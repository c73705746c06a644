package tallyback.report.owner;

import java.util.HashMap;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tallyback.model.Finding;

/**
 * Each kind of finding as one sentence for somebody who is no mechanic. {@code {found}}, {@code
 * {expected}} and {@code {difference}} are filled in from the finding; what the mechanic is to do
 * about it is his business and left out.
 */
final class PlainFindings {

  private static final Pattern QUOTED = Pattern.compile("\"[^\"]*\"");

  /** What fits whatever kind comes. */
  private static final String ANY = "{found}; it should be: {expected}.";

  /** Kinds that tell of silence: nobody said what was asked, so nothing wrong was seen either. */
  private static final Set<String> SILENCE =
      Set.of(
          "torque-unsaid",
          "tightness-unsaid",
          "renewal-unsaid",
          "alignment-unsaid",
          "angle-unsaid",
          "adapter-unsaid",
          "not-carried-over",
          "tighten-again-unsaid",
          "step-not-done",
          "step-not-finished",
          "state-unsaid",
          "amount-unsaid",
          "unit-unsaid",
          "entry-unconfirmed",
          "not-understood",
          "said-not-counted");

  /** Kinds that are about telling and not about the machine, and how often something was done. */
  private static final Set<String> NOT_FOR_THE_OWNER =
      Set.of("clock-set-back", "caution-passed", "step-redone", "edit-without-effect");

  private static final Map<String, String> SENTENCES = new HashMap<>();

  static {
    say("left-in-tray", "Some were left over and are not back on: {found}.");
    say("not-connected", "It was taken off, and nobody said that it is connected again.");
    say("missing", "Not all of them are there: {found}.");
    say("dropped-in-machine", "Something fell down and was not found again: {found}.");
    say("more-on-than-off", "More went on than there are places for: {found}.");
    say("more-off-than-plan", "More came off than the machine should have: {found}.");
    say("lengths-swapped", "Long and short ones may have changed places: {found}.");
    say("wrong-head-size", "One of another size may sit here: {found}; it should be {expected}.");
    say("head-unusual", "An unusual size: {found}.");
    say("old-put-back", "The old one was put back, where a new one belongs.");
    say("renewal-unsaid", "New ones belong here, and nobody said that all of them are new.");
    say("not-carried-over", "It moves over from the old part; nobody said that it did.");
    say("temporary-still-in", "It only helps during the work and is still in the machine.");
    say("alignment-outside", "Its mark stands {found}; it belongs {expected}.");
    say("alignment-unsaid", "Nobody said where its mark stands.");
    say("said-not-counted", "Said to be all back on, but they were not counted.");
    say("not-in-plan", "Nobody said what this belongs to ({found}).");
    say("unit-slip", "Tightened to {found}: {difference}. The maker asks for {expected}.");
    say("torque-outside", "Tightened to {found}: {difference}. The maker asks for {expected}.");
    say(
        "torque-borderline",
        "Tightened to {found}, so near the limit that the wrench can't tell. The maker asks for"
            + " {expected}.");
    say("wrench-range", "Tightened with a wrench that is not made for so much or so little.");
    say("torque-unsaid", "Nobody said for certain how tight. The maker asks for {expected}.");
    say("tightness-unsaid", "Nobody said of all of them that they are tight.");
    say("order-not-reversed", "It went back on in another order than it came off.");
    say("hand-tight-only", "Only tightened by hand, which is not finished.");
    say("tight-by-feel", "Tightened without a torque wrench. The maker asks for {expected}.");
    say("torque-partly", "Not all of them were said to be tightened: {difference}.");
    say("passes-missing", "The maker asks for {expected} of tightening; only {found}.");
    say("angle-unsaid", "After tightening, a last turn belongs; nobody said that all have it.");
    say("angle-differs", "The last turn was {found}; it belongs {expected}.");
    say("overloaded", "Tightened so far that the bolt may be damaged. It must be looked at.");
    say("load-high", "Tightened very far for this bolt. It should be looked at.");
    say("adapter-unsaid", "Tightened with an extension; nobody said what reached the bolt.");
    say("tighten-again-unsaid", "To be tightened again after running warm; nobody said so.");
    say("fluid-short", "More came out than went in: {difference}.");
    say("fluid-excess", "More went in than came out: {difference}.");
    say("drain-low", "Less came out here than usual ({found}); old fluid may still be inside.");
    say("more-out-than-holds", "More came out than it holds: {found}.");
    say("wrong-fluid", "Another fluid went in than the maker asks for: {found}, not {expected}.");
    say("wrong-form", "Not filled with what belongs in: {found}, not {expected}.");
    say("mixture-weak", "Mixed too weak against frost: {found}; it should be {expected}.");
    say("mixture-strong", "Mixed too strong: {found}; it should be {expected}.");
    say("old-fluid-left", "Some of the old fluid is still inside: {found}.");
    say("amount-unsaid", "Nobody said how much: {found}.");
    say("level-below-mark", "The level was too low when it was last read: {found}.");
    say("level-fallen", "The level did not stay where it was: {found}.");
    say("pressure-fallen", "It did not hold the pressure: {found}.");
    say("level-read-hot", "The level was read hot, which says nothing.");
    say("hold-not-comparable", "The pressure test says nothing: it got warmer or colder.");
    say("hold-too-short", "The pressure was not held long enough: {found}.");
    say("reading-outside", "Measured {found}; it should be {expected}.");
    say("step-before-need", "Done in the wrong order: {found}.");
    say("step-not-done", "Nobody said that this was done.");
    say("step-not-finished", "It was begun, and nobody said that it was finished.");
    say("caution-passed", "Work went on before its safety notes were answered.");
    say("step-redone", "It was done once more.");
    say("step-skipped", "Left out on purpose.");
    say("state-unsaid", "Nobody said before it began: {expected}.");
    say("cap-opened-hot", "It was opened while nobody had said that it was cold.");
    say("run-without-guards", "The engine ran without its guards: {found}.");
    say("not-turned-by-hand", "Nobody said that it was turned over by hand first.");
    say("battery-on-early", "The battery was connected before all else was finished.");
    say("half-tight-over-pause", "Work stopped while they were half tight: {found}.");
    say("clock-set-back", "A clock was changed during the work: times may be off.");
    say("leak-seen", "A leak was seen, and nobody said since that it is tight.");
    say("problem-open", "{found}; nobody said that it was put right.");
    say("entry-unconfirmed", "Not understood for certain: {found}.");
    say("not-understood", "Something that was called out was not understood.");
    say("unit-unsaid", "A number without its unit: {found}");
    say("amount-unusable", "An amount that could not be counted: {found}.");
    say("edit-without-effect", "Something was put right that could not be found.");
    say("topped-up-more", "More had to be topped up than last time: {found}, {expected}.");
    say("topped-up-unusual", "More had to be topped up than usual: {found}.");
    say("topped-up-drifting", "The level sinks from job to job: {found}.");
    say("left-half-open", "The work was left with things still open.");
  }

  private PlainFindings() {}

  private static void say(String kind, String sentence) {
    SENTENCES.put(kind, sentence);
  }

  /** The kinds that have a sentence of their own. */
  static Set<String> kinds() {
    return Set.copyOf(SENTENCES.keySet());
  }

  /** True when it only tells that nobody said something. */
  static boolean isSilence(Finding finding) {
    return SILENCE.contains(finding.kind());
  }

  /** True when the owner has to know it. */
  static boolean isForTheOwner(Finding finding) {
    return !NOT_FOR_THE_OWNER.contains(finding.kind());
  }

  /** The sentence, amounts as they were said. */
  static String of(Finding finding) {
    String sentence = SENTENCES.getOrDefault(finding.kind(), ANY);
    String difference = finding.difference();
    return filled(
        sentence,
        Map.of(
            "{found}", plain(finding.found()),
            "{expected}", plain(finding.expected()),
            "{difference}", difference == null ? plain(finding.found()) : plain(difference)));
  }

  /** Filled in one pass, so that braces in names stay as they are. */
  private static String filled(String sentence, Map<String, String> values) {
    StringBuilder text = new StringBuilder();
    int from = 0;
    for (int open = sentence.indexOf('{'); open >= 0; open = sentence.indexOf('{', from)) {
      int close = sentence.indexOf('}', open) + 1;
      text.append(sentence, from, open).append(values.get(sentence.substring(open, close)));
      from = close;
    }
    String whole = text.append(sentence.substring(from)).toString();
    return whole.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + whole.substring(1);
  }

  /** Without the words of the shop; what somebody said stands between quotes and stays. */
  static String plain(String text) {
    Matcher quoted = QUOTED.matcher(text);
    StringBuilder plain = new StringBuilder();
    int from = 0;
    while (quoted.find()) {
      plain.append(unquoted(text.substring(from, quoted.start()))).append(quoted.group());
      from = quoted.end();
    }
    return plain.append(unquoted(text.substring(from))).toString();
  }

  private static String unquoted(String text) {
    return text.replace(" in the tray", " left over")
        .replace("scrapped ", "thrown away ")
        .replace(" (plan)", "")
        .replace("below it at", "below the mark at")
        .replace(": not confirmed", "")
        .replace("unconfirmed", "not certain")
        .replace("the entry before", "what was told before")
        .replace("an earlier entry", "something told earlier")
        .replace("the last entry", "what was told last")
        .replace("an entry that isn't in this log", "something that isn't in this list")
        .replace("torqued", "tightened");
  }
}
