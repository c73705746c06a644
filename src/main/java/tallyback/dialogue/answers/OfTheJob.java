package tallyback.dialogue.answers;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Finding.Stage;
import tallyback.model.Statement;
import tallyback.model.Verdict;
import tallyback.phrase.EntryGrammar;
import tallyback.phrase.Question.OfJob;
import tallyback.phrase.ReadBack;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Step;
import tallyback.reconcile.JobTimes;
import tallyback.reconcile.Outcome;
import tallyback.reconcile.Outcome.StepLine;
import tallyback.reconcile.Outcome.StepStatus;
import tallyback.reconcile.Outcome.Unsaid;

/** How the job stands: by what was told, and no further. */
final class OfTheJob {

  private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  private final Plan plan;
  private final Function<Statement, ReadBack> readBack;
  private final List<Entry> entries;
  private final Outcome outcome;

  OfTheJob(
      Plan plan, Function<Statement, ReadBack> readBack, List<Entry> entries, Outcome outcome) {
    this.plan = plan;
    this.readBack = readBack;
    this.entries = entries;
    this.outcome = outcome;
  }

  Outcome outcome() {
    return outcome;
  }

  Told answer(OfJob question) {
    return switch (question) {
      case MAY_START -> verdict(Stage.START_FOR_TEST, outcome.verdict().startForTest());
      case MAY_WORK -> verdict(Stage.WORK, outcome.verdict().work());
      case MAY_HAND_OVER -> verdict(Stage.HAND_OVER, outcome.verdict().handOver());
      case NEXT -> under(AnswerText.NEXT, next());
      case WHERE_WAS_I -> under(AnswerText.WHERE_YOU_WERE, whereYouWere());
      case LEFT -> under(AnswerText.LEFT, left());
      case IN_THE_TRAY -> under(AnswerText.IN_THE_TRAY, hands().inTheTray());
      case NOT_TIGHT -> under(AnswerText.NOT_TIGHT, hands().notTight());
      case NOT_SAID -> under(AnswerText.NOT_SAID, notSaid());
      case CAUTIONS -> cautions();
      case HOW_LONG -> under(AnswerText.TIME, howLong());
      case TIMERS -> throw new IllegalArgumentException("whoever keeps the timers answers that");
      case CAN_SAY -> throw new IllegalArgumentException("the phrase card answers that");
    };
  }

  private static Told under(String subject, Told told) {
    return new Told(subject + ": " + told.spoken(), subject + ": " + told.shown());
  }

  private OfHands hands() {
    return new OfHands(plan, entries, outcome);
  }

  // ---- may it be started

  private Told verdict(Stage stage, Verdict.Answer answer) {
    Told told =
        switch (answer) {
          case STOP -> against(stage);
          case OPEN -> notJudged(AnswerText.CANT_TELL, outcome.unsaidFor(stage));
          case CLEAR -> notJudged("", outcome.unchecked());
        };
    return under(AnswerText.stage(stage), told);
  }

  private Told against(Stage stage) {
    List<Finding> findings =
        outcome.against(stage).stream().map(number -> outcome.findings().get(number - 1)).toList();
    List<String> spoken = findings.stream().map(OfTheJob::aloud).toList();
    StringBuilder shown = new StringBuilder(AnswerText.NO.strip());
    for (Finding finding : findings) {
      shown.append("\n  ").append(written(finding)).append(". ").append(finding.remedy());
    }
    int unsaid = outcome.unsaidFor(stage).size();
    String besides =
        unsaid == 0
            ? ""
            : ". " + AnswerText.thingsNotSaid(EntryGrammar.inWords(unsaid), unsaid == 1);
    outcome
        .unsaidFor(stage)
        .forEach(words -> shown.append("\n  ").append(AnswerText.NOT_SAID_BESIDES).append(words));
    return new Told(AnswerText.NO + Aloud.few(spoken, ". ") + besides, shown.toString());
  }

  private static String aloud(Finding finding) {
    return Aloud.of(finding.subject() + ", " + finding.inShort());
  }

  private static String written(Finding finding) {
    return finding.subject() + ": " + finding.inShort();
  }

  private static Told notJudged(String opening, List<String> unsaid) {
    String start = opening + AnswerText.NOTHING_AGAINST;
    if (unsaid.isEmpty()) {
      return Told.same(start + AnswerText.SILENCE);
    }
    List<String> spoken = unsaid.stream().map(Aloud::of).toList();
    return new Told(
        start + AnswerText.NOT_TOLD + Aloud.few(spoken, ". "),
        start + AnswerText.NOT_TOLD + lines(unsaid));
  }

  private static String lines(List<String> all) {
    StringBuilder text = new StringBuilder();
    all.forEach(each -> text.append("\n  ").append(each));
    return text.toString();
  }

  private Told notSaid() {
    List<String> most =
        outcome.unsaid().stream()
            .sorted(Comparator.comparingInt(each -> -each.stages().size()))
            .map(Unsaid::words)
            .toList();
    return most.isEmpty()
        ? Told.same(AnswerText.NOTHING_UNSAID)
        : new Told(Aloud.few(most.stream().map(Aloud::of).toList(), ". "), lines(most));
  }

  // ---- steps

  private Optional<StepLine> underWay() {
    return outcome.steps().stream()
        .filter(line -> line.status() == StepStatus.STARTED)
        .max(
            Comparator.comparing(
                line -> line.startedAt() == null ? Instant.MIN : line.startedAt()));
  }

  /** The first that was not spoken of and whose needs are done or left out on purpose. */
  private Optional<StepLine> nextToStart() {
    return outcome.steps().stream()
        .filter(line -> line.status() == StepStatus.UNSAID && needsDone(line.step()))
        .findFirst();
  }

  private boolean needsDone(String step) {
    List<String> needs = plan.step(step).map(Step::needs).orElse(List.of());
    return outcome.steps().stream()
        .filter(line -> needs.contains(line.step()))
        .allMatch(line -> line.status() == StepStatus.DONE || line.status() == StepStatus.SKIPPED);
  }

  private Told next() {
    if (plan.steps().isEmpty()) {
      return Told.same(AnswerText.NO_STEPS);
    }
    Optional<StepLine> begun = underWay();
    if (begun.isPresent()) {
      StepLine line = begun.get();
      return line.startedAt() == null
          ? Told.same(AnswerText.finish(line.label()))
          : spokenToo(AnswerText.finish(AnswerText.begun(line.label(), time(line.startedAt()))));
    }
    Optional<StepLine> next = nextToStart();
    if (next.isEmpty()) {
      return Told.same(AnswerText.ALL_STEPS_DONE);
    }
    Step step = plan.step(next.get().step()).orElseThrow();
    String label = step.label();
    String wanted =
        String.join(
            ", ",
            step.states().stream()
                .map(state -> readBack.apply(new Statement.StateSaid(state, null)).written())
                .toList());
    String shown =
        label
            + (wanted.isEmpty() ? "" : "\n  " + AnswerText.wants(wanted))
            + lines(step.cautions());
    return step.cautions().isEmpty()
        ? new Told(label, shown)
        : new Told(label + ". " + AnswerText.mind(sentences(step.cautions())), shown);
  }

  private static Told spokenToo(String written) {
    return new Told(Aloud.of(written), written);
  }

  private static String sentences(List<String> cautions) {
    return Aloud.few(
        cautions.stream()
            .map(each -> each.endsWith(".") ? each.substring(0, each.length() - 1) : each)
            .toList(),
        ". ");
  }

  private Told cautions() {
    Optional<StepLine> hand = underWay().or(this::nextToStart);
    if (hand.isEmpty()) {
      return under(AnswerText.CAUTIONS, Told.same(AnswerText.CAUTIONS_NO_STEP));
    }
    List<String> cautions = plan.step(hand.get().step()).map(Step::cautions).orElse(List.of());
    Told told =
        cautions.isEmpty()
            ? Told.same(AnswerText.NO_CAUTIONS)
            : new Told(sentences(cautions), lines(cautions));
    return under(hand.get().label(), told);
  }

  // ---- what was noted

  /**
   * The entries that stand, in the order they were noted, but for what is about the talk itself.
   */
  private List<Entry> told() {
    return outcome.standing().stream()
        .filter(entry -> !(entry.statement() instanceof Statement.JobOpened))
        .filter(entry -> !(entry.statement() instanceof Statement.SpeakerIs))
        .sorted(Comparator.comparingLong(Entry::seq))
        .toList();
  }

  private Told whereYouWere() {
    List<Entry> told = told();
    if (told.isEmpty()) {
      return Told.same(AnswerText.NOTHING_NOTED);
    }
    Entry last = told.get(told.size() - 1);
    String step =
        underWay()
            .map(
                line ->
                    line.startedAt() == null
                        ? line.label()
                        : AnswerText.begun(line.label(), time(line.startedAt())))
            .map(text -> text + ". ")
            .orElse("");
    Told entry = told(last);
    String at = time(last.happenedAt());
    return new Told(
        Aloud.of(step)
            + (step.isEmpty() ? "" : " ")
            + AnswerText.lastNoted(entry.spoken(), Aloud.of(at)),
        step + AnswerText.lastNoted(entry.shown(), at));
  }

  Told readBackLast(int count) {
    List<Entry> told = told();
    List<Entry> last = told.subList(Math.max(0, told.size() - count), told.size());
    String subject = AnswerText.last(count, EntryGrammar.spoken(count));
    if (last.isEmpty()) {
      return under(subject, Told.same(AnswerText.NOTHING_NOTED));
    }
    List<Told> each = last.stream().map(this::told).toList();
    String shown =
        last.size() == 1 ? each.get(0).shown() : lines(each.stream().map(Told::shown).toList());
    return under(
        subject, new Told(String.join(". ", each.stream().map(Told::spoken).toList()), shown));
  }

  private Told told(Entry entry) {
    ReadBack back = readBack.apply(entry.statement());
    return entry.confirmed()
        ? new Told(back.spoken(), back.written())
        : new Told(AnswerText.unconfirmed(back.spoken()), AnswerText.unconfirmed(back.written()));
  }

  private String time(Instant instant) {
    ZoneId zone = entries.isEmpty() ? ZoneOffset.UTC : entries.get(entries.size() - 1).zone();
    return TIME.format(instant.atZone(zone));
  }

  // ---- what is left

  private Told left() {
    List<String> steps =
        outcome.steps().stream()
            .filter(
                line -> line.status() == StepStatus.UNSAID || line.status() == StepStatus.STARTED)
            .map(StepLine::label)
            .toList();
    List<String> spoken = new ArrayList<>();
    List<String> shown = new ArrayList<>();
    OfHands hands = hands();
    // What is in and must come out wrecks an engine, so it comes first.
    add(hands.stillIn(), AnswerText::stillIn, spoken, shown);
    if (!steps.isEmpty()) {
      boolean one = steps.size() == 1;
      spoken.add(AnswerText.steps(EntryGrammar.inWords(steps.size()), one, Aloud.few(steps, ", ")));
      shown.add(
          "\n  " + AnswerText.steps(Integer.toString(steps.size()), one, String.join(", ", steps)));
    }
    add(hands.stillOff(), AnswerText::stillOff, spoken, shown);
    add(hands.untight(), AnswerText::untight, spoken, shown);
    return spoken.isEmpty()
        ? Told.same(AnswerText.NOTHING_LEFT)
        : new Told(String.join(". ", spoken), String.join("", shown));
  }

  private static void add(
      List<String> names, Function<String, String> text, List<String> spoken, List<String> shown) {
    if (!names.isEmpty()) {
      spoken.add(text.apply(Aloud.few(names, ", ")));
      shown.add("\n  " + text.apply(String.join(", ", names)));
    }
  }

  // ---- how long

  private Told howLong() {
    JobTimes times = JobTimes.of(outcome, List.of());
    List<String> spoken = new ArrayList<>();
    List<String> shown = new ArrayList<>();
    Duration worked = times.worked();
    if (worked.isZero()) {
      spoken.add(AnswerText.NOTHING_NOTED);
      shown.add(AnswerText.NOTHING_NOTED);
    } else {
      spoken.add(AnswerText.worked(Aloud.duration(worked)));
      shown.add(AnswerText.worked(AnswerText.shown(worked)));
    }
    if (times.paused().toMinutes() > 0) {
      spoken.add(AnswerText.paused(Aloud.duration(times.paused())));
      shown.add(AnswerText.paused(AnswerText.shown(times.paused())));
    }
    int minutes =
        plan.steps().stream().mapToInt(step -> step.minutes() == null ? 0 : step.minutes()).sum();
    Duration expected = Duration.ofMinutes(minutes);
    spoken.add(minutes == 0 ? AnswerText.NO_TIMES : AnswerText.expects(Aloud.duration(expected)));
    shown.add(minutes == 0 ? AnswerText.NO_TIMES : AnswerText.expects(AnswerText.shown(expected)));
    List<String> steps =
        times.steps().stream()
            .filter(step -> step.took() != null)
            .map(
                step ->
                    AnswerText.stepTook(
                        step.label(),
                        AnswerText.shown(step.took()),
                        step.planned() == null
                            ? ""
                            : AnswerText.expected(AnswerText.shown(step.planned()))))
            .toList();
    return new Told(String.join(", ", spoken), String.join(", ", shown) + lines(steps));
  }
}
