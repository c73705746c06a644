package tallyback.report;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tallyback.model.Balance;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Finding.Stage;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.PartFitted;
import tallyback.model.Statement.PictureTaken;
import tallyback.model.Statement.ProblemSeen;
import tallyback.model.Statement.StateSaid;
import tallyback.model.Verdict.Answer;
import tallyback.plan.Plan;
import tallyback.reconcile.Outcome.FluidLine;
import tallyback.reconcile.Outcome.FluidSum;
import tallyback.reconcile.Outcome.StepLine;
import tallyback.reconcile.Outcome.StepStatus;
import tallyback.reconcile.Outcome.TightnessLine;
import tallyback.reconcile.Outcome.TightnessStatus;

/**
 * What the page shows, as finished texts: the templates only lay it out. Lists are never null; an
 * empty one stands on the page as words, since a blank would look like a pass.
 */
record RecordPage(
    String style,
    String title,
    String machine,
    String jobLine,
    List<Fact> head,
    List<StageAnswer> verdict,
    List<Found> findings,
    String findingsTally,
    List<Answered> answered,
    List<String> unchecked,
    Timeline picture,
    List<Fluid> fluids,
    List<Tight> tightness,
    List<Step> steps,
    List<Where> outOfPlace,
    List<Where> rest,
    List<Told> parts,
    List<Told> readings,
    List<Told> troubles,
    List<Day> days,
    List<Caution> cautions,
    String entriesTally,
    String deferral) {

  /** A line of the head. */
  record Fact(String name, String value) {}

  /** One stage of the verdict. */
  record StageAnswer(String style, String question, String answer, String reason) {}

  /** A finding with its evidence. */
  record Found(
      String number,
      String style,
      String weight,
      String subject,
      String remedy,
      String expected,
      String found,
      @Nullable String difference,
      @Nullable String tolerance,
      List<Told> evidence,
      List<Found> followers) {}

  /** An entry as evidence. */
  record Told(
      String anchor, String number, String time, String meaning, String words, boolean unsure) {}

  /** An answer to a finding. */
  record Answered(String anchor, String number, String subject, String says) {}

  /** The sum of a fluid system as it would be written on paper. */
  record Fluid(String label, String capacity, List<Sum> sums, String total, String says) {}

  /** One line of a sum. */
  record Sum(String sign, String name, String amount) {}

  /** Tightness of a group. */
  record Tight(
      String label,
      String expected,
      String told,
      String wrench,
      String status,
      String style,
      String entries) {}

  /** A step. */
  record Step(String label, String status, String style, String when, String took) {}

  /** Where things are. */
  record Where(String label, String places) {}

  /** The entries of a day. */
  record Day(String name, List<Line> lines) {}

  /** A picture: its address, what is to be seen, when in short, the entry it is. */
  record Shot(String address, String words, String shortly, String anchor) {}

  /**
   * An entry in the full list; its sound as an address, empty for none; the pictures that belong to
   * it; of a picture shown beside another entry the anchor and number of that one, else empty.
   */
  record Line(
      String anchor,
      String number,
      String time,
      String late,
      String words,
      String meaning,
      List<String> marks,
      boolean struck,
      String sound,
      List<Shot> shots,
      String shownAt,
      String shownBeside) {}

  /** A caution with the step it belongs to. */
  record Caution(String step, List<String> texts) {}

  static RecordPage of(JobRecord job, String style) {
    return new Maker(job).make(style);
  }

  /** One page in the making; used by one thread and thrown away. */
  private static final class Maker {

    private final JobRecord job;
    private final Plan plan;
    private final ZoneId zone;
    private final ShopTime time;
    private final Trail trail;
    private final StatementText text;
    private final boolean allLate;
    private final List<JobPicture> pictures;

    Maker(JobRecord job) {
      this.job = job;
      this.plan = job.plan();
      this.zone = job.heading().zone();
      this.time = ShopTime.of(job);
      this.trail = Trail.of(job.entries());
      this.text = new StatementText(plan, trail, time);
      this.pictures = JobPictures.of(job);
      this.allLate = !job.entries().isEmpty() && job.entries().stream().allMatch(this::isLate);
    }

    RecordPage make(String style) {
      List<Balance> balances = job.outcome().balances();
      return new RecordPage(
          style,
          plan.name(),
          plan.machine().name(),
          Wording.jobLine(job),
          head(),
          verdict(),
          found(job.outcome().findings(), ""),
          tally(job.outcome().findings()),
          job.outcome().answers().stream()
              .map(
                  each ->
                      new Answered(
                          anchor(each.entry()),
                          "no. " + each.entry().seq(),
                          Wording.answeredSubject(each),
                          Wording.together(Wording.answer(each))))
              .toList(),
          job.outcome().unchecked(),
          Timeline.of(job, trail, text, time),
          job.outcome().fluids().stream().map(this::fluid).toList(),
          job.outcome().tightness().stream().map(this::tight).toList(),
          steps(),
          where(balances.stream().filter(balance -> Wording.outOfPlace(balance, plan)).toList()),
          where(balances.stream().filter(balance -> !Wording.outOfPlace(balance, plan)).toList()),
          standing(Maker::isPart),
          standing(entry -> entry.statement() instanceof Measured),
          standing(Maker::isTrouble),
          days(),
          cautions(),
          entriesTally(),
          Wording.DEFERRAL);
    }

    private List<Fact> head() {
      JobRecord.Heading heading = job.heading();
      List<Fact> facts = new ArrayList<>();
      facts.add(new Fact("Machine", plan.machine().name()));
      String serial = plan.machine().serial();
      facts.add(new Fact("Number of the machine", serial == null ? "not given" : serial));
      facts.add(new Fact("Left and right", plan.machine().sides()));
      facts.add(new Fact("Job", heading.job()));
      facts.add(new Fact("Opened", ShopTime.full(heading.openedAt(), zone)));
      Instant closed = heading.closedAt();
      facts.add(
          new Fact(
              "Closed", closed == null ? "not yet: the job is open" : ShopTime.full(closed, zone)));
      facts.add(new Fact("Told by", Wording.people(job)));
      facts.add(new Fact("This record made", ShopTime.full(heading.madeAt(), zone)));
      facts.add(new Fact("Times", "24 hours, " + zone.getId()));
      return facts;
    }

    private List<StageAnswer> verdict() {
      List<StageAnswer> answers = new ArrayList<>();
      for (Stage stage : Stage.values()) {
        Answer answer = Wording.answer(job.outcome().verdict(), stage);
        answers.add(
            new StageAnswer(
                word(answer),
                Wording.question(stage),
                Wording.answer(answer),
                Wording.reason(job.outcome(), stage)));
      }
      return answers;
    }

    private List<Found> found(List<Finding> findings, String parent) {
      List<Found> found = new ArrayList<>();
      for (int index = 0; index < findings.size(); index++) {
        Finding finding = findings.get(index);
        String number = parent.isEmpty() ? Integer.toString(index + 1) : parent + "." + (index + 1);
        found.add(
            new Found(
                number,
                word(finding.weight()),
                Wording.weight(finding.weight()),
                finding.subject(),
                Wording.together(finding.remedy()),
                Wording.together(finding.expected()),
                Wording.together(finding.found()),
                together(finding.difference()),
                together(finding.tolerance()),
                finding.entries().stream().map(this::told).toList(),
                found(finding.followers(), number)));
      }
      return found;
    }

    private static @Nullable String together(@Nullable String text) {
      return text == null ? null : Wording.together(text);
    }

    private static String tally(List<Finding> findings) {
      List<String> counts = new ArrayList<>();
      for (tallyback.model.Weight weight : tallyback.model.Weight.values()) {
        long count = findings.stream().filter(finding -> finding.weight() == weight).count();
        counts.add(count + " " + word(weight) + (count == 1 ? "" : "s"));
      }
      return String.join(", ", counts);
    }

    private Told told(String id) {
      return trail
          .entry(id)
          .map(this::told)
          .orElseGet(() -> new Told("", trail.number(id), "", "", "", true));
    }

    private Told told(Entry entry) {
      return new Told(
          anchor(entry),
          "no. " + entry.seq(),
          time.at(trail.happenedAt(entry), entry.zone()),
          Wording.together(text.of(entry)),
          entry.words(),
          !entry.confirmed());
    }

    private static String anchor(Entry entry) {
      return "entry-" + entry.seq();
    }

    private Fluid fluid(FluidSum sum) {
      List<Sum> sums = new ArrayList<>();
      for (FluidLine line : sum.lines()) {
        String sign = line.out() ? sums.isEmpty() ? "" : "+" : "\u2212";
        sums.add(new Sum(sign, Wording.part(line.part()), line.amount().toString()));
      }
      return new Fluid(
          sum.label(),
          sum.capacity() == null ? "not known" : sum.capacity().toString(),
          sums,
          Wording.difference(sum),
          Wording.together(sum.says()));
    }

    private Tight tight(TightnessLine line) {
      String wrench = line.wrench();
      boolean silent = line.told().isBlank();
      return new Tight(
          line.count() + " \u00d7 " + line.label(),
          Wording.together(line.expected()),
          silent ? "nothing was said" : Wording.together(line.told()),
          silent ? "" : wrench == null ? "wrench not said" : wrench,
          Wording.tightness(line.status()),
          line.status() == TightnessStatus.RIGHT ? "right" : "open",
          Wording.together(String.join(", ", line.entries().stream().map(trail::number).toList())));
    }

    private List<Step> steps() {
      List<Step> steps = new ArrayList<>();
      for (StepLine line : job.outcome().steps()) {
        String style = line.status() == StepStatus.DONE ? "right" : "open";
        steps.add(
            new Step(line.label(), Wording.step(line.status()), style, when(line), took(line)));
      }
      return steps;
    }

    private String when(StepLine line) {
      Instant started = line.startedAt();
      Instant done = line.doneAt();
      if (done == null) {
        return started == null ? "no time said" : time.at(started, zone) + " \u2013 end not said";
      }
      return started == null
          ? "done at " + time.at(done, zone)
          : time.at(started, zone) + " \u2013 " + time.at(done, zone);
    }

    private static String took(StepLine line) {
      String took = line.took() == null ? "\u2013" : ShopTime.took(line.took());
      Integer expected = line.expectedMinutes();
      return Wording.together(expected == null ? took : took + " (plan " + expected + " min)");
    }

    private List<Where> where(List<Balance> balances) {
      return balances.stream()
          .map(
              balance ->
                  new Where(
                      Wording.label(balance, plan), Wording.together(Wording.balance(balance))))
          .toList();
    }

    private List<Told> standing(java.util.function.Predicate<Entry> wanted) {
      return job.outcome().standing().stream().filter(wanted).map(this::told).toList();
    }

    private static boolean isPart(Entry entry) {
      return entry.statement() instanceof PartFitted
          || (entry.statement() instanceof ItemsMoved moved
              && (moved.move() == ItemMove.NEW_ON || moved.move() == ItemMove.SCRAPPED));
    }

    private static boolean isTrouble(Entry entry) {
      return entry.statement() instanceof ProblemSeen
          || (entry.statement() instanceof StateSaid said && said.state() == MachineState.LEAK)
          || (entry.statement() instanceof ItemsMoved moved
              && switch (moved.move()) {
                case SHEARED, DROPPED, FOUND, MISSING -> true;
                default -> false;
              });
    }

    private List<Day> days() {
      Map<String, List<Line>> days = new LinkedHashMap<>();
      for (Entry entry : job.entries()) {
        // Lines stand as they were noted; a job noted as a whole afterwards has its own days.
        Instant stands = allLate ? trail.happenedAt(entry) : entry.recordedAt();
        days.computeIfAbsent(ShopTime.fullDay(stands, entry.zone()), day -> new ArrayList<>())
            .add(line(entry));
      }
      return days.entrySet().stream().map(day -> new Day(day.getKey(), day.getValue())).toList();
    }

    private Line line(Entry entry) {
      List<String> marks = new ArrayList<>();
      if (!entry.confirmed()) {
        marks.add("UNCONFIRMED");
      }
      marks.addAll(trail.fate(entry));
      boolean picture = entry.statement() instanceof PictureTaken;
      boolean late = !allLate && !picture && isLate(entry);
      JobPicture elsewhere =
          pictures.stream()
              .filter(each -> each.entry().id().equals(entry.id()))
              .filter(each -> !each.beside().id().equals(entry.id()))
              .findFirst()
              .orElse(null);
      return new Line(
          anchor(entry),
          Long.toString(entry.seq()),
          ShopTime.clock(trail.happenedAt(entry), entry.zone()),
          late ? "said " + ShopTime.clock(entry.recordedAt(), entry.zone()) : "",
          picture ? "" : entry.words(),
          Wording.together(text.of(entry)),
          marks,
          trail.struck(entry),
          sound(entry),
          shots(entry),
          elsewhere == null ? "" : anchor(elsewhere.beside()),
          elsewhere == null ? "" : "no. " + elsewhere.beside().seq());
    }

    private List<Shot> shots(Entry entry) {
      return pictures.stream()
          .filter(each -> each.beside().id().equals(entry.id()))
          .map(
              each ->
                  new Shot(
                      "data:"
                          + JobRecord.PICTURE_TYPE
                          + ";base64,"
                          + Base64.getEncoder().encodeToString(each.bytes()),
                      each.words(),
                      (each.photo() == null ? "" : "photo " + each.photo() + ", ") + each.clock(),
                      "picture-" + each.entry().seq()))
          .toList();
    }

    /** Pictures that the log holds, or held, and the page doesn't. */
    private String picturesMissing() {
      long kept =
          job.outcome().standing().stream()
              .filter(entry -> entry.statement() instanceof PictureTaken)
              .count();
      long missing = kept - pictures.size();
      return missing == 0
          ? ""
          : " "
              + missing
              + (missing == 1 ? " picture is" : " pictures are")
              + " not in this page: taken out of the log, or too many for a page.";
    }

    /** The sound of an entry as an address that holds all of it; empty when there is none. */
    private String sound(Entry entry) {
      byte[] sound = entry.clip() == null ? null : job.sounds().get(entry.clip());
      return sound == null
          ? ""
          : "data:audio/wav;base64," + Base64.getEncoder().encodeToString(sound);
    }

    private boolean isLate(Entry entry) {
      return entry.recordedAt().minusSeconds(60).isAfter(trail.happenedAt(entry));
    }

    /** When all was noted afterwards it is said once and not beside each entry. */
    private String notedAfterwards() {
      if (!allLate) {
        return "";
      }
      Instant first = job.entries().get(0).recordedAt();
      Instant last = job.entries().get(job.entries().size() - 1).recordedAt();
      String begin = ShopTime.full(first, zone);
      String end = ShopTime.full(last, zone);
      return begin.equals(end)
          ? " All were noted afterwards, on " + begin + "."
          : " All were noted afterwards, from " + begin + " to " + end + ".";
    }

    private String entriesTally() {
      long unsure = job.entries().stream().filter(entry -> !entry.confirmed()).count();
      long struck = job.entries().stream().filter(trail::struck).count();
      String tally =
          job.entries().size()
              + " entries; "
              + unsure
              + " unconfirmed, "
              + struck
              + " withdrawn or corrected. Nothing is ever erased."
              + notedAfterwards()
              + picturesMissing();
      JobRecord.Heard heard = job.heard();
      return heard == null
          ? tally
          : tally
              + " Heard: "
              + heard.utterances()
              + " pieces of speech, "
              + ShopTime.took(heard.speech())
              + " together; "
              + heard.noted()
              + " noted at once, "
              + heard.asked()
              + " asked about, "
              + heard.rejected()
              + " taken as no entry.";
    }

    private List<Caution> cautions() {
      return plan.steps().stream()
          .filter(step -> !step.cautions().isEmpty())
          .map(step -> new Caution(step.label(), step.cautions()))
          .toList();
    }

    private static String word(Enum<?> value) {
      return value.name().toLowerCase(Locale.ROOT);
    }
  }
}
