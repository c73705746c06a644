package tallyback.report;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.zone.ZoneOffsetTransition;
import java.time.zone.ZoneRules;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tallyback.books.Books;
import tallyback.books.Fate;
import tallyback.books.FluidAccount;
import tallyback.books.ItemAccount;
import tallyback.books.Posting;
import tallyback.model.Account;
import tallyback.model.Amount;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Rational;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.NotUnderstood;
import tallyback.model.Statement.NotUnderstoodSettled;
import tallyback.plan.Plan;
import tallyback.reconcile.Outcome.StepLine;
import tallyback.reconcile.Outcome.StepStatus;
import tallyback.reconcile.WorkedTime;
import tallyback.reconcile.WorkedTime.Stood;
import tallyback.report.TimelineData.Asked;
import tallyback.report.TimelineData.Bar;
import tallyback.report.TimelineData.Candidate;
import tallyback.report.TimelineData.Choice;
import tallyback.report.TimelineData.Curve;
import tallyback.report.TimelineData.DoubtKind;
import tallyback.report.TimelineData.Found;
import tallyback.report.TimelineData.Link;
import tallyback.report.TimelineData.Mark;
import tallyback.report.TimelineData.Offset;
import tallyback.report.TimelineData.Point;
import tallyback.report.TimelineData.Reading;
import tallyback.report.TimelineData.Stretch;

/** One {@link TimelineData} in the making; used by one thread and thrown away. */
final class TimelineMaker {

  private static final Duration LATE = Duration.ofSeconds(60);

  /** The lanes, from top to bottom. */
  enum Lane {
    STEPS("Steps"),
    FLUIDS("Fluids"),
    TRAY("Things off and on"),
    TORQUES("Tightening"),
    READINGS("Readings, states"),
    PAUSES("Pauses, nights"),
    PICTURES("Pictures"),
    OTHER("Everything else"),
    REPAIRS("Put right, unclear");

    private final String label;

    Lane(String label) {
      this.label = label;
    }

    String id() {
      return name().toLowerCase(Locale.ROOT);
    }

    static Lane of(Statement statement) {
      if (statement instanceof Statement.StepMarked
          || statement instanceof Statement.CautionAnswered) {
        return STEPS;
      } else if (statement instanceof Statement.Paused
          || statement instanceof Statement.Resumed
          || statement instanceof Statement.LeftForNight
          || statement instanceof Statement.JobOpened
          || statement instanceof Statement.JobClosed
          || statement instanceof Statement.VisitBegun) {
        return PAUSES;
      } else if (statement instanceof Statement.Undone
          || statement instanceof Corrected
          || statement instanceof Statement.Retimed
          || statement instanceof Statement.FindingAnswered
          || statement instanceof NotUnderstood
          || statement instanceof NotUnderstoodSettled) {
        return REPAIRS;
      }
      return switch (Timeline.Lane.of(statement)) {
        case FLUIDS -> FLUIDS;
        case ITEMS -> TRAY;
        case TIGHTENING -> TORQUES;
        case CHECKS -> READINGS;
        case PICTURES -> PICTURES;
        case OTHER -> OTHER;
      };
    }
  }

  /** What may be doubtful about an entry, the weightiest first; the sign stands on its mark. */
  enum Doubt {
    UNCONFIRMED("Asked, not answered", "?"),
    NOT_UNDERSTOOD("Not understood", "!"),
    IN_DOUBT("Put in doubt", "~"),
    CORRECTED("Corrected", "c"),
    WITHDRAWN("Withdrawn", "\u00d7"),
    RETIMED("Time changed", "t"),
    ASKED("Asked and answered", "a");

    private final String label;
    private final String sign;

    Doubt(String label, String sign) {
      this.label = label;
      this.sign = sign;
    }

    String id() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  private final JobRecord job;
  private final Plan plan;
  private final ZoneId zone;
  private final ShopTime time;
  private final Trail trail;
  private final StatementText text;
  private final Map<String, Fate> fates;
  private final Map<String, Entry> standing = new HashMap<>();
  private final Map<String, List<Link>> links = new HashMap<>();
  private final Map<String, List<String>> evidenceFor = new HashMap<>();
  private final Set<String> settled = new HashSet<>();
  private final Map<String, String> places = new LinkedHashMap<>();

  TimelineMaker(JobRecord job) {
    this.job = job;
    this.plan = job.plan();
    this.zone = job.heading().zone();
    this.time = ShopTime.of(job);
    this.trail = Trail.of(job.entries());
    this.text = new StatementText(plan, trail, time);
    this.fates = Fate.of(job.entries());
    job.outcome().standing().forEach(entry -> standing.put(entry.id(), entry));
  }

  TimelineData make() {
    List<Finding> findings = job.outcome().findings();
    for (int index = 0; index < findings.size(); index++) {
      gather(findings.get(index), Integer.toString(index + 1));
    }
    gatherLinks();
    gatherSettled();
    List<Bar> bars = new ArrayList<>(steps());
    bars.addAll(pauses());
    List<Mark> marks = job.entries().stream().map(this::mark).toList();
    List<Instant> times = times();
    List<Stretch> stretches =
        TimeScale.worked(times).stream()
            .map(each -> new Stretch(each.from().toEpochMilli(), each.to().toEpochMilli()))
            .toList();
    long from = stretches.get(0).fromMs();
    long to = stretches.get(stretches.size() - 1).toMs();
    return new TimelineData(
        job.heading().job(),
        plan.name() + " \u00b7 " + plan.machine().name(),
        Wording.jobLine(job),
        zone.getId(),
        from,
        to,
        offsets(from, to),
        stretches,
        Arrays.stream(Lane.values())
            .map(each -> new TimelineData.Lane(each.id(), each.label))
            .toList(),
        bars,
        marks,
        found(),
        curves(),
        Arrays.stream(Doubt.values())
            .map(each -> new DoubtKind(each.id(), each.label, each.sign, each == Doubt.ASKED))
            .toList(),
        stepChoices(marks),
        places.entrySet().stream()
            .map(each -> new Choice(each.getKey(), each.getValue()))
            .toList());
  }

  private void gather(Finding finding, String number) {
    for (String id : finding.entries()) {
      List<String> numbers = evidenceFor.computeIfAbsent(id, any -> new ArrayList<>());
      if (!numbers.contains(number)) {
        numbers.add(number);
      }
    }
    finding.followers().forEach(follower -> gather(follower, number));
  }

  private void gatherLinks() {
    for (Entry entry : job.entries()) {
      Fate fate = fates.get(entry.id());
      if (fate != null) {
        link(entry, fate.withdrawnBy(), "withdrawn by", "withdraws");
        link(entry, fate.correctedBy(), "corrected by", "corrects");
        link(entry, fate.retimedBy(), "time changed by", "changes the time of");
        link(entry, fate.doubtedBy(), "put in doubt by", "puts in doubt");
      }
      if (entry.statement() instanceof NotUnderstoodSettled one) {
        Entry by = Optional.ofNullable(one.by()).flatMap(trail::entry).orElse(null);
        Optional.ofNullable(one.target())
            .flatMap(trail::entry)
            .ifPresent(target -> link(target, by, "said again as", "says again"));
      }
    }
  }

  private void link(Entry entry, @Nullable Entry by, String says, String back) {
    if (by != null) {
      links.computeIfAbsent(entry.id(), id -> new ArrayList<>()).add(new Link(says, by.seq()));
      links.computeIfAbsent(by.id(), id -> new ArrayList<>()).add(new Link(back, entry.seq()));
    }
  }

  /** Said again by an entry that was withdrawn, it stands as not understood again. */
  private void gatherSettled() {
    for (Entry entry : job.outcome().standing()) {
      if (!entry.confirmed() || !(entry.statement() instanceof NotUnderstoodSettled one)) {
        continue;
      }
      String target = one.target();
      if (target == null) {
        job.entries().stream()
            .filter(each -> each.seq() < entry.seq())
            .filter(each -> each.statement() instanceof NotUnderstood)
            .forEach(each -> settled.add(each.id()));
      } else if (one.by() == null || standing.containsKey(one.by())) {
        settled.add(target);
      }
    }
  }

  private List<Instant> times() {
    List<Instant> times = new ArrayList<>();
    times.add(job.heading().openedAt());
    job.entries().forEach(entry -> times.add(trail.happenedAt(entry)));
    for (StepLine step : job.outcome().steps()) {
      Stream.of(Optional.ofNullable(step.startedAt()), Optional.ofNullable(step.doneAt()))
          .flatMap(Optional::stream)
          .forEach(times::add);
    }
    return times;
  }

  private List<Offset> offsets(long from, long to) {
    ZoneRules rules = zone.getRules();
    Instant at = Instant.ofEpochMilli(from);
    List<Offset> offsets = new ArrayList<>();
    offsets.add(new Offset(from, rules.getOffset(at).getTotalSeconds() / 60));
    for (ZoneOffsetTransition next = rules.nextTransition(at);
        next != null && next.getInstant().toEpochMilli() < to;
        next = rules.nextTransition(next.getInstant())) {
      offsets.add(
          new Offset(
              next.getInstant().toEpochMilli(), next.getOffsetAfter().getTotalSeconds() / 60));
    }
    return offsets;
  }

  private List<Bar> steps() {
    List<Bar> bars = new ArrayList<>();
    for (StepLine step : job.outcome().steps()) {
      Instant done = step.doneAt();
      Instant from = step.startedAt() == null ? done : step.startedAt();
      if (from == null) {
        continue;
      }
      boolean open = step.status() != StepStatus.DONE;
      Instant to = done == null ? lastTime() : done;
      Duration took = step.took();
      bars.add(
          new Bar(
              Lane.STEPS.id(),
              step.step(),
              step.label(),
              Wording.step(step.status())
                  + ", "
                  + (step.startedAt() == null ? "" : time.at(from, zone) + " \u2013 ")
                  + (done == null ? "end not said" : time.at(done, zone))
                  + (took == null ? "" : ", " + ShopTime.took(took)),
              from.toEpochMilli(),
              Math.max(from.toEpochMilli(), to.toEpochMilli()),
              open));
    }
    return bars;
  }

  private Instant lastTime() {
    return times().stream().max(Instant::compareTo).orElse(job.heading().openedAt());
  }

  private List<Bar> pauses() {
    List<Bar> bars = new ArrayList<>();
    for (Stood each : WorkedTime.pauses(job.outcome())) {
      boolean open = !each.to().isAfter(each.from());
      Instant to = open ? lastTime() : each.to();
      String name = each.overnight() ? "Left" : "Pause";
      bars.add(
          new Bar(
              Lane.PAUSES.id(),
              "",
              name,
              time.at(each.from(), zone)
                  + " \u2013 "
                  + (open
                      ? "not ended"
                      : time.at(to, zone)
                          + ", "
                          + ShopTime.took(Duration.between(each.from(), to))),
              each.from().toEpochMilli(),
              to.toEpochMilli(),
              open));
    }
    return bars;
  }

  private List<Found> found() {
    List<Found> found = new ArrayList<>();
    List<Finding> findings = job.outcome().findings();
    for (int index = 0; index < findings.size(); index++) {
      Finding finding = findings.get(index);
      LinkedHashSet<Long> entries = new LinkedHashSet<>();
      List<String> also = new ArrayList<>();
      evidence(finding, entries);
      finding.followers().forEach(follower -> also(follower, also));
      found.add(
          new Found(
              Integer.toString(index + 1),
              finding.weight().name().toLowerCase(Locale.ROOT),
              Wording.weight(finding.weight()),
              finding.subject(),
              finding.found(),
              finding.expected(),
              Objects.requireNonNullElse(finding.difference(), ""),
              Objects.requireNonNullElse(finding.tolerance(), ""),
              finding.remedy(),
              List.copyOf(entries),
              also));
    }
    return found;
  }

  private void evidence(Finding finding, Set<Long> entries) {
    finding.entries().forEach(id -> trail.entry(id).ifPresent(each -> entries.add(each.seq())));
    finding.followers().forEach(follower -> evidence(follower, entries));
  }

  private static void also(Finding finding, List<String> also) {
    also.add(finding.subject() + ": " + finding.found());
    finding.followers().forEach(follower -> also(follower, also));
  }

  private Mark mark(Entry entry) {
    Instant happened = trail.happenedAt(entry);
    Set<Doubt> doubts = doubts(entry);
    boolean picture = entry.statement() instanceof Statement.PictureTaken;
    String noted =
        Duration.between(happened, entry.recordedAt()).abs().compareTo(LATE) > 0
            ? ShopTime.full(entry.recordedAt(), entry.zone())
            : "";
    return new Mark(
        entry.seq(),
        Lane.of(entry.said()).id(),
        happened.toEpochMilli(),
        time.at(happened, entry.zone()),
        ShopTime.full(happened, entry.zone()),
        noted,
        entry.source() == Source.TOOL ? "Tallyback" : plan.label(entry.actor()),
        source(entry.source()),
        entry.words(),
        text.of(entry),
        sure(entry, doubts),
        doubts.stream().map(Doubt::id).toList(),
        trail.struck(entry),
        heard(entry),
        asked(entry),
        readings(entry),
        links.getOrDefault(entry.id(), List.of()),
        stepAt(entry, happened),
        named(entry),
        evidenceFor.getOrDefault(entry.id(), List.of()),
        picture ? null : entry.clip(),
        picture ? entry.id() : null);
  }

  private Set<Doubt> doubts(Entry entry) {
    Set<Doubt> doubts = EnumSet.noneOf(Doubt.class);
    if (!entry.confirmed()) {
      doubts.add(Doubt.UNCONFIRMED);
    }
    if (entry.confirmed() && !entry.asked().isEmpty()) {
      doubts.add(Doubt.ASKED);
    }
    if (entry.statement() instanceof NotUnderstood && !settled.contains(entry.id())) {
      doubts.add(Doubt.NOT_UNDERSTOOD);
    }
    Fate fate = fates.get(entry.id());
    if (fate != null) {
      add(doubts, fate.doubtedBy(), Doubt.IN_DOUBT);
      add(doubts, fate.correctedBy(), Doubt.CORRECTED);
      add(doubts, fate.withdrawnBy(), Doubt.WITHDRAWN);
      add(doubts, fate.retimedBy(), Doubt.RETIMED);
    }
    return doubts;
  }

  private static void add(Set<Doubt> doubts, @Nullable Entry by, Doubt doubt) {
    if (by != null) {
      doubts.add(doubt);
    }
  }

  private static String source(Source source) {
    return switch (source) {
      case TOOL -> "noted by the tool";
      case TYPED -> "typed";
      case SPOKEN -> "spoken";
    };
  }

  private String sure(Entry entry, Set<Doubt> doubts) {
    List<String> words = new ArrayList<>();
    if (doubts.contains(Doubt.UNCONFIRMED)) {
      words.add(
          "unconfirmed: it was asked about and nobody answered; it may open a finding and settles"
              + " nothing");
    } else if (entry.statement() instanceof NotUnderstood missed) {
      words.add(
          missed.inNoise()
              ? "too noisy to take its words; only the sound is kept"
              : "not understood; only the sound is kept");
      words.add(settled.contains(entry.id()) ? "settled since" : "nobody has said it again since");
    } else {
      words.add(confirmed(entry));
    }
    words.addAll(trail.fate(entry));
    return String.join("; ", words);
  }

  private static String confirmed(Entry entry) {
    if (!entry.asked().isEmpty()) {
      return "confirmed: asked about, and answered";
    } else if (entry.source() != Source.SPOKEN) {
      return "confirmed";
    }
    return entry.heard() == null
        ? "confirmed: heard clearly, or answered when asked"
        : "confirmed: heard clearly";
  }

  private static List<Candidate> heard(Entry entry) {
    return entry.readings().stream().map(words -> new Candidate(words, entry.took(words))).toList();
  }

  private static List<Asked> asked(Entry entry) {
    return entry.asked().stream()
        .map(each -> new Asked(each.question(), Objects.requireNonNullElse(each.answer(), "")))
        .toList();
  }

  /** What it was taken for before and what it is taken for now. */
  private List<Reading> readings(Entry entry) {
    List<Reading> readings = new ArrayList<>();
    if (entry.statement() instanceof Corrected corrected) {
      trail
          .entry(corrected.target())
          .ifPresent(
              first ->
                  readings.add(
                      new Reading("Before, no. " + first.seq(), first.words(), text.of(first))));
    }
    Fate fate = fates.get(entry.id());
    Entry now = standing.get(entry.id());
    Entry by = fate == null ? null : fate.correctedBy();
    if (by != null) {
      readings.add(
          new Reading(
              "Since no. " + by.seq(), by.words(), now == null ? text.of(by) : text.of(now)));
    }
    return readings;
  }

  private @Nullable String stepAt(Entry entry, Instant happened) {
    if (entry.statement() instanceof Statement.StepMarked marked) {
      return marked.step();
    } else if (entry.statement() instanceof Statement.CautionAnswered caution) {
      return caution.step();
    }
    StepLine under = job.outcome().stepAt(happened);
    return under == null ? null : under.step();
  }

  private List<Choice> stepChoices(List<Mark> marks) {
    Set<String> used = new HashSet<>();
    marks.stream().map(Mark::step).filter(Objects::nonNull).forEach(used::add);
    List<Choice> choices = new ArrayList<>();
    for (StepLine step : job.outcome().steps()) {
      if (used.remove(step.step())) {
        choices.add(new Choice(step.step(), step.label()));
      }
    }
    used.stream().sorted().forEach(id -> choices.add(new Choice(id, plan.label(id))));
    return choices;
  }

  private List<String> named(Entry entry) {
    Entry now = standing.getOrDefault(entry.id(), entry);
    Set<String> ids = new LinkedHashSet<>();
    names(entry.statement(), ids);
    names(now.statement(), ids);
    if (entry.statement() instanceof Corrected corrected) {
      names(corrected.now(), ids);
    }
    ids.forEach(id -> places.putIfAbsent(id, plan.label(id)));
    return List.copyOf(ids);
  }

  private static void names(Statement statement, Set<String> ids) {
    if (statement instanceof Statement.FluidMoved fluid) {
      add(ids, fluid.system(), fluid.place());
    } else if (statement instanceof Statement.ItemsMoved items) {
      add(ids, items.item(), items.place());
    } else if (statement instanceof Statement.TemporaryMoved temporary) {
      add(ids, temporary.item());
    } else if (statement instanceof Statement.Tightened tightened) {
      add(ids, tightened.item(), tightened.place());
    } else if (statement instanceof Statement.Measured measured) {
      add(ids, measured.subject(), measured.mark());
    } else if (statement instanceof Statement.PartFitted part) {
      add(ids, part.item());
    } else if (statement instanceof Statement.Aligned aligned) {
      add(ids, aligned.item());
    } else if (statement instanceof Statement.StateSaid said) {
      add(ids, said.place());
    } else if (statement instanceof Statement.SecondCheck check) {
      add(ids, check.subject());
    } else if (statement instanceof Statement.ProblemSeen problem) {
      add(ids, problem.subject());
    } else if (statement instanceof Statement.Memo memo) {
      add(ids, memo.subject());
    } else if (statement instanceof Statement.TimerSet timer) {
      add(ids, timer.subject());
    } else if (statement instanceof Statement.PhotoMarked photo) {
      add(ids, photo.subject());
    } else if (statement instanceof Statement.LookAgain again) {
      add(ids, again.subject());
    }
  }

  private static void add(Set<String> ids, @Nullable String... said) {
    for (String id : said) {
      if (id != null) {
        ids.add(id);
      }
    }
  }

  private List<Curve> curves() {
    Books books = Books.of(plan, job.entries());
    List<Curve> curves = new ArrayList<>();
    List<Move> tray = new ArrayList<>();
    for (ItemAccount account : books.confirmed().items().values()) {
      // What only goes in for the job lies in the tray at the beginning and at the end.
      if (!account.item().map(Plan.Item::temporary).orElse(false)) {
        moves(account.postings(), Account.TRAY, false, tray);
      }
    }
    if (!tray.isEmpty()) {
      curves.add(
          new Curve(
              Lane.TRAY.id(),
              "In the tray",
              points(tray, value -> value.toBigDecimal().toPlainString() + " in the tray")));
    }
    for (FluidAccount account : books.confirmed().fluids().values()) {
      List<Move> out = new ArrayList<>();
      moves(account.postings(), Account.SYSTEM, true, out);
      if (!out.isEmpty()) {
        int decimals = Books.decimals(account);
        curves.add(
            new Curve(
                Lane.FLUIDS.id(),
                account.label() + ": out so far",
                points(
                    out,
                    value -> {
                      Amount shown = Books.shown(value.abs(), decimals);
                      return shown + (value.signum() < 0 ? " more in than out" : " out");
                    })));
      }
    }
    return curves;
  }

  /** What came to an account, or left it. */
  private record Move(Instant at, Rational by) {}

  private static void moves(
      List<Posting> postings, Account account, boolean leaving, List<Move> moves) {
    for (Posting posting : postings) {
      Instant at = posting.said().entry().happenedAt();
      Rational quantity = leaving ? posting.quantity().negate() : posting.quantity();
      if (posting.to() == account) {
        moves.add(new Move(at, quantity));
      }
      if (posting.from() == account) {
        moves.add(new Move(at, quantity.negate()));
      }
    }
  }

  private List<Point> points(List<Move> moves, java.util.function.Function<Rational, String> says) {
    List<Point> points = new ArrayList<>();
    Rational value = Rational.ZERO;
    // What was written down afterwards may have happened before the job was opened here.
    Instant first =
        Stream.concat(Stream.of(job.heading().openedAt()), moves.stream().map(Move::at))
            .min(Instant::compareTo)
            .orElseThrow();
    points.add(new Point(first.toEpochMilli(), 0, says.apply(Rational.ZERO)));
    for (Move move : moves.stream().sorted(java.util.Comparator.comparing(Move::at)).toList()) {
      value = value.plus(move.by());
      long at = move.at().toEpochMilli();
      if (points.get(points.size() - 1).ms() == at) {
        points.remove(points.size() - 1);
      }
      points.add(new Point(at, value.toDouble(), says.apply(value)));
    }
    return points;
  }
}
