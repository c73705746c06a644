package tallyback.report.owner;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import tallyback.model.Amount;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Statement;
import tallyback.model.Statement.About;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.Written;
import tallyback.model.Verdict;
import tallyback.model.Weight;
import tallyback.plan.Plan;
import tallyback.reconcile.Outcome;
import tallyback.report.JobRecord;
import tallyback.report.ShopTime;
import tallyback.report.SquareCode;
import tallyback.report.StatementText;
import tallyback.report.Trail;
import tallyback.report.Wording;
import tallyback.report.owner.OwnerPage.Answer;
import tallyback.report.owner.OwnerPage.Day;
import tallyback.report.owner.OwnerPage.Fact;
import tallyback.report.owner.OwnerPage.Line;
import tallyback.report.owner.OwnerPage.Part;
import tallyback.report.owner.OwnerPage.Point;
import tallyback.report.owner.OwnerPage.Sign;
import tallyback.report.owner.OwnerPage.Told;

/** One record in the making; used by one thread and thrown away. */
final class PageMaker {

  private static final DateTimeFormatter DATE =
      DateTimeFormatter.ofPattern("d MMMM uuuu", Locale.ENGLISH);

  /** What a plan is called that is none: names to speak with. */
  private static final String WITHOUT_PLAN = "Without a plan";

  private static final String TORQUES_NOTE =
      "What the maker asks for is as the workshop wrote it into its plan, with the place it took it"
          + " from. What was tightened is as it was told. In brackets: the figure as it was said or"
          + " written, where that was in other units.";

  private final JobRecord job;
  private final Form form;
  private final Plan plan;
  private final Outcome outcome;
  private final ZoneId zone;
  private final ShopTime time;
  private final Trail trail;
  private final StatementText text;
  private final PlainAmounts amounts;
  private final List<Written> written;

  private PageMaker(JobRecord job, Form form) {
    this.job = job;
    this.form = form;
    this.plan = job.plan();
    this.outcome = job.outcome();
    this.zone = job.heading().zone();
    this.time = ShopTime.of(job);
    this.trail = Trail.of(job.entries());
    this.text = new StatementText(plan, trail, time);
    this.amounts = new PlainAmounts(form.units());
    this.written =
        outcome.standing().stream()
            .map(Entry::statement)
            .filter(Written.class::isInstance)
            .map(Written.class::cast)
            .toList();
  }

  /**
   * What the owner reads.
   *
   * @param job the job
   * @param form the form he wants
   * @param style the style sheet
   * @param onPaper whether it is for print
   */
  static OwnerPage of(JobRecord job, Form form, String style, boolean onPaper) {
    return new PageMaker(job, form).make(style, onPaper);
  }

  /** What stands in the annex of everything told, by time. */
  static List<Day> told(JobRecord job, Form form) {
    return new PageMaker(job, form).days();
  }

  private OwnerPage make(String style, boolean onPaper) {
    WorkDone work = new WorkDone(job, amounts, time);
    HowTight tight = new HowTight(plan, outcome, amounts);
    Readings readings = new Readings(plan, outcome, amounts, time);
    String seal = job.heading().seal();
    return new OwnerPage(
        style,
        onPaper,
        plan.name().equals(WITHOUT_PLAN) ? "Work done" : sentence(plan.name()),
        plan.machine().name(),
        plan.machine().name() + " \u00b7 record of " + day(job.heading().openedAt()),
        facts(),
        answer(),
        Unchecked.groups(
            outcome.unchecked().stream().map(amounts::inText).toList(), told(About.WASTE)),
        List.of(
            part("reason", "Why it came in", reason()),
            part("done", "What was done", work.done(all(About.CAUSE))),
            part("new", "New parts and fluids", work.material())),
        readings.lines(),
        readings.note(),
        List.of(
                part("tight", "Bolts and nuts", tight.lines()),
                part("fixed", "Found and put right", work.putRight()),
                part("watch", "To watch", watch(work.stillOpen())),
                part("waste", "Old parts and waste", waste(work.thrownAway())),
                part("time", "Time and material", work.time()),
                part("use", "Using the machine", CareInUse.of(plan)),
                part("photos", "Pictures", photos()))
            .stream()
            .filter(each -> !each.lines().isEmpty())
            .toList(),
        form.pictures(),
        picturesNote(),
        signs(),
        seal == null ? "" : SquareCode.address(seal),
        "",
        tight.torques(),
        tight.torques().isEmpty() ? "" : TORQUES_NOTE,
        days(),
        daysNote());
  }

  private static Part part(String id, String heading, List<Line> lines) {
    return new Part(id, heading, lines);
  }

  // ---- the head

  private List<Fact> facts() {
    List<Fact> facts = new ArrayList<>();
    String serial = plan.machine().serial();
    facts.add(new Fact("Serial number", serial == null ? "not given" : serial));
    facts.add(new Fact("Owner", orElse(all(About.OWNER), "not written down")));
    facts.add(new Fact("Work began", ShopTime.full(job.heading().openedAt(), zone)));
    Instant closed = job.heading().closedAt();
    facts.add(
        new Fact(
            "Work ended", closed == null ? "not said to be ended" : ShopTime.full(closed, zone)));
    facts.add(new Fact("Meter reading", meter()));
    facts.add(new Fact("Done by", Wording.people(job)));
    facts.add(new Fact("Record made", ShopTime.full(job.heading().madeAt(), zone)));
    facts.add(new Fact("Job", job.heading().job()));
    String seal = job.heading().seal();
    if (seal != null) {
      facts.add(new Fact("Seal", seal));
    }
    return facts;
  }

  private String meter() {
    Amount last = null;
    for (Entry entry : outcome.standing()) {
      boolean meter =
          entry.confirmed()
              && entry.statement() instanceof Measured measured
              && (measured.measure() == Measure.HOURS || measured.measure() == Measure.DISTANCE);
      if (meter && ((Measured) entry.statement()).amount() != null) {
        last = ((Measured) entry.statement()).amount();
      }
    }
    return last == null || last.unitUnsaid() ? "not read" : amounts.of(last);
  }

  // ---- may it be used

  private Answer answer() {
    List<Point> points = points();
    Verdict verdict = outcome.verdict();
    boolean running = verdict.startForTest() == Verdict.Answer.STOP;
    boolean stop =
        running
            || verdict.work() == Verdict.Answer.STOP
            || verdict.handOver() == Verdict.Answer.STOP;
    if (stop) {
      String headline =
          running
              ? "Do not use this machine, and do not start it."
              : verdict.work() == Verdict.Answer.STOP
                  ? "Do not use this machine yet."
                  : "This machine is not ready to be handed over.";
      return new Answer("stop", headline, why(points.size()), points);
    }
    boolean open =
        verdict.startForTest() == Verdict.Answer.OPEN
            || verdict.work() == Verdict.Answer.OPEN
            || verdict.handOver() == Verdict.Answer.OPEN;
    if (open) {
      return new Answer(
          "open",
          "It is not known whether this machine may be used.",
          "Not enough was told while it was worked on. What is missing stands below under \u201cNot"
              + " checked\u201d. Do not use it before the workshop has settled that.",
          points);
    }
    int unchecked = outcome.unchecked().size();
    return new Answer(
        "clear",
        "Nothing that was told speaks against using this machine.",
        "That is no guarantee: it rests on what was told during the work. "
            + (unchecked == 0
                ? "What nobody was asked for was not checked."
                : "What was not checked stands below."),
        points);
  }

  private static String why(int points) {
    if (points == 0) {
      return "The workshop has to say what is not settled.";
    }
    return points == 1
        ? "One point is not settled. The workshop has to put it right and say so:"
        : points + " points are not settled. The workshop has to put them right and say so:";
  }

  private List<Point> points() {
    List<Finding> against = new ArrayList<>();
    List<Finding> silence = new ArrayList<>();
    for (Finding finding : outcome.findings()) {
      boolean counts = weight(finding) != Weight.NOTE;
      if (counts) {
        (PlainFindings.isSilence(finding) ? silence : against).add(finding);
      }
    }
    against.addAll(silence);
    return against.stream().map(this::point).toList();
  }

  /** The gravest of it and what follows from it. */
  private static Weight weight(Finding finding) {
    Weight gravest = finding.weight();
    for (Finding follower : finding.followers()) {
      Weight below = weight(follower);
      gravest = below.compareTo(gravest) < 0 ? below : gravest;
    }
    return gravest;
  }

  private Point point(Finding finding) {
    StringBuilder all = new StringBuilder(amounts.inText(PlainFindings.of(finding)));
    for (Finding follower : finding.followers()) {
      // Of what was not understood for certain nobody needs to know that its unit is missing too.
      boolean said = !follower.kind().equals("unit-unsaid");
      if (said && follower.weight() != Weight.NOTE) {
        all.append(' ');
        if (!follower.subject().equals(finding.subject())) {
          all.append(sentence(follower.subject())).append(": ");
        }
        all.append(amounts.inText(PlainFindings.of(follower)));
      }
    }
    return new Point(subject(finding), together(all.toString()));
  }

  /** What a finding is about, as the owner reads it. */
  static String subject(Finding finding) {
    return sentence(finding.subject().replaceFirst("^entry of (?=\\d)", "said at "));
  }

  /** With a full stop behind it. */
  static String ended(String text) {
    return text.matches(".*[.!?]") ? text : text + ".";
  }

  // ---- what stands under headings

  private List<Line> reason() {
    List<Line> lines = new ArrayList<>();
    lines.add(new Line("Complaint", orElse(all(About.COMPLAINT), "nothing was written down")));
    lines.add(
        new Line("Condition on arrival", orElse(all(About.ARRIVAL), "nothing was written down")));
    List<String> extra = all(About.EXTRA_WORK);
    List<String> agreed = all(About.AGREED);
    if (extra.isEmpty() && agreed.isEmpty()) {
      lines.add(new Line("Extra work", "none was written down"));
    } else {
      lines.add(new Line("Extra work", orElse(extra, "none was written down")));
      lines.add(
          new Line("Agreed", orElse(agreed, "nobody wrote down that it was agreed with you")));
    }
    return lines;
  }

  private List<Line> watch(List<String> stillOpen) {
    List<Line> lines = new ArrayList<>();
    all(About.ADVICE).forEach(each -> lines.add(new Line("", sentence(each))));
    for (Unchecked.Again again : Unchecked.again(outcome.unchecked())) {
      lines.add(
          new Line(
              "",
              "Have the "
                  + again.what()
                  + " tightened again after "
                  + amounts.inText(again.after())
                  + "."));
    }
    List<Line> dates = lookAgain();
    lines.addAll(dates);
    boolean dated = answered(lines);
    stillOpen.forEach(each -> lines.add(new Line("", each)));
    for (Finding finding : outcome.findings()) {
      if (weight(finding) == Weight.NOTE
          && !finding.kind().equals("problem-open")
          && PlainFindings.isForTheOwner(finding)) {
        Point point = point(finding);
        lines.add(new Line("", point.subject() + ": " + point.text()));
      }
    }
    boolean when = dated || !all(About.ADVICE).isEmpty() || !dates.isEmpty();
    if (!when) {
      lines.add(
          new Line(
              "",
              (lines.isEmpty() ? "Nothing was written down. " : "")
                  + "When to look again was not said: go by the maker's manual."));
    }
    return together(lines);
  }

  /** What stays as it is by agreement, or is to be looked at on a day; true if a day is given. */
  private boolean answered(List<Line> lines) {
    boolean dated = false;
    for (Outcome.Answered answered : outcome.answers()) {
      Finding finding = answered.finding();
      Statement.FindingAnswered answer = answered.answer();
      LocalDate again = answered.holds() ? answer.again() : null;
      if (finding == null || !PlainFindings.isForTheOwner(finding)) {
        continue;
      }
      String day = again == null ? "" : " Look again on " + DATE.format(again) + ".";
      dated |= again != null;
      if (answered.settles() && answer.end() == Statement.FindingEnd.ACCEPTED) {
        lines.add(
            new Line(
                "",
                subject(finding)
                    + ": "
                    + amounts.inText(PlainFindings.of(finding))
                    + " It stays so; agreed to by "
                    + answer.by()
                    + ": "
                    + ended(answer.why())
                    + day));
      } else if (again != null) {
        lines.add(new Line("", subject(finding) + ":" + day + " " + sentence(ended(answer.why()))));
      }
    }
    return dated;
  }

  /** What was said to be looked at again, with its day. */
  private List<Line> lookAgain() {
    List<Line> lines = new ArrayList<>();
    for (Entry entry : outcome.standing()) {
      if (entry.statement() instanceof Statement.LookAgain again) {
        String subject = again.subject();
        String what =
            again.level() ? "the level" : subject == null ? "it" : "the " + plan.label(subject);
        lines.add(
            new Line(
                "",
                "Look at "
                    + what
                    + " again on "
                    + DATE.format(again.dueOn(entry.happenedAt(), entry.zone()))
                    + (entry.confirmed() ? "." : " (not certain).")));
      }
    }
    return lines;
  }

  private List<Line> waste(List<String> thrownAway) {
    List<Line> lines = new ArrayList<>();
    lines.add(
        new Line(
            "Old parts",
            orElse(
                all(About.OLD_PARTS),
                "nobody wrote down whether you get them back"
                    + (thrownAway.isEmpty()
                        ? ""
                        : "; said to be thrown away: " + String.join(", ", thrownAway)))));
    lines.add(
        new Line("Old fluid, waste", orElse(all(About.WASTE), "nobody wrote down where it went")));
    return lines;
  }

  /** Which pictures these are of how many. */
  private String picturesNote() {
    int more = job.pictures().size() - form.pictures().size();
    return "Taken during the work, made smaller; nothing else was changed. The time is the camera's,"
        + " put right by what was told."
        + (more > 0 ? " The workshop keeps " + more + " more with its log." : "");
  }

  /** Pictures that were said to be taken and are not here: nobody is to wonder where they are. */
  private List<Line> photos() {
    List<String> taken = new ArrayList<>();
    Set<Integer> here = new HashSet<>();
    OwnerPictures.chosen(job).forEach(each -> here.add(each.photo() == null ? 0 : each.photo()));
    boolean shown = !form.pictures().isEmpty();
    for (Entry entry : outcome.standing()) {
      if (entry.statement() instanceof Statement.PhotoMarked photo
          && !(shown && photo.number() != null && here.contains(photo.number()))) {
        String subject = photo.subject();
        taken.add(subject == null ? "one of something not named" : plan.label(subject));
      }
    }
    List<Line> lines = new ArrayList<>();
    if (shown) {
      int count = form.pictures().size();
      lines.add(
          new Line(
              "",
              count == 1 ? "One picture stands in annex C" : count + " pictures stand in annex C"));
    }
    if (!taken.isEmpty()) {
      lines.add(new Line("", "Taken during the work and not in here: " + String.join(", ", taken)));
    }
    return lines;
  }

  private List<Sign> signs() {
    return List.of(
        new Sign("For the work", String.join(", ", all(About.SIGNED))),
        new Sign("Received, owner of the machine", ""));
  }

  // ---- annexes

  private List<Day> days() {
    Map<String, List<Told>> days = new LinkedHashMap<>();
    List<Entry> byTime =
        job.entries().stream()
            .sorted(java.util.Comparator.comparing(trail::happenedAt).thenComparingLong(Entry::seq))
            .toList();
    for (Entry entry : byTime) {
      days.computeIfAbsent(
              ShopTime.fullDay(trail.happenedAt(entry), entry.zone()), day -> new ArrayList<>())
          .add(line(entry));
    }
    return days.entrySet().stream().map(day -> new Day(day.getKey(), day.getValue())).toList();
  }

  private Told line(Entry entry) {
    List<String> marks = new ArrayList<>();
    if (!entry.confirmed()) {
      marks.add("not certain");
    }
    for (String fate : trail.fate(entry)) {
      marks.add(
          PlainFindings.plain(fate)
              .replace("withdrawn by", "taken back,")
              .replace("corrected by", "put right,"));
    }
    Statement statement = entry.statement();
    boolean asItStands = statement instanceof Written || statement instanceof Statement.Memo;
    String meaning = statement instanceof Statement.JobOpened ? "work began" : meaning(entry);
    return new Told(
        Long.toString(entry.seq()),
        ShopTime.clock(trail.happenedAt(entry), entry.zone()),
        asItStands ? meaning : together(amounts.inText(PlainFindings.plain(meaning))),
        String.join("; ", marks),
        trail.struck(entry));
  }

  /** Of what there is only one nobody needs to hear that its number was not said. */
  private String meaning(Entry entry) {
    boolean single =
        entry.statement() instanceof Statement.ItemsMoved moved
            && moved.item() != null
            && plan.item(moved.item()).filter(item -> item.count() == 1).isPresent();
    return single ? text.of(entry).replace(", number not said", "") : text.of(entry);
  }

  private String daysNote() {
    return "In the order in which it happened, times of 24 hours, "
        + zone.getId()
        + ". Nothing is ever erased: what was taken back or put right still stands here, crossed"
        + " out."
        + (job.heading().seal() == null
            ? ""
            : " The seal on the first page, held against the log, shows that none of this was changed"
                + " after the work ended.");
  }

  // ---- words

  private boolean told(About about) {
    return written.stream().anyMatch(each -> each.about() == about);
  }

  private List<String> all(About about) {
    return written.stream().filter(each -> each.about() == about).map(Written::text).toList();
  }

  private static String orElse(List<String> texts, String otherwise) {
    return texts.isEmpty() ? otherwise : String.join("; ", texts);
  }

  private String day(Instant instant) {
    return DATE.format(instant.atZone(zone));
  }

  static String sentence(String text) {
    return text.isEmpty()
        ? text
        : text.substring(0, text.offsetByCodePoints(0, 1)).toUpperCase(Locale.ROOT)
            + text.substring(text.offsetByCodePoints(0, 1));
  }

  private static String together(String text) {
    return Wording.together(text);
  }

  private static List<Line> together(List<Line> lines) {
    return lines.stream()
        .map(line -> new Line(line.label(), Wording.together(line.text())))
        .toList();
  }
}
