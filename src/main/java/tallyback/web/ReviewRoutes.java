package tallyback.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeParseException;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import tallyback.app.CheckedJob;
import tallyback.app.MachineFailed;
import tallyback.app.ReviewDesk;
import tallyback.app.WrongUse;
import tallyback.log.JobLog;
import tallyback.log.LogReader;
import tallyback.log.Seal;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.HowHeard;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.FindingEnd;
import tallyback.plan.Plan;
import tallyback.reconcile.Outcome;
import tallyback.reconcile.TearDown;
import tallyback.report.JobRecord;
import tallyback.report.JobWords;
import tallyback.report.ReviewText;
import tallyback.report.ShopTime;
import tallyback.report.StatementText;
import tallyback.report.Trail;
import tallyback.review.Act;
import tallyback.review.Change;
import tallyback.review.ClockTime;
import tallyback.review.Doubt;
import tallyback.review.Proposal;
import tallyback.review.Review;
import tallyback.review.ReviewRefused;

/**
 * What the page of a job's review asks for: the job as it stands, and to do something about it. Who
 * may ask was settled before. Whatever is noted goes through the job that is listened to, which is
 * the one writer of the data file.
 */
final class ReviewRoutes {

  private static final String JSON = "application/json; charset=utf-8";
  private static final Failures FAILURES = Failures.USUAL.with(ReviewRefused.class, 400);
  private static final int LONGEST_WAIT_S = 20;
  private static final ObjectMapper MAPPER = new ObjectMapper();
  private static final DateTimeFormatter LOCAL =
      DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm:ss", Locale.ROOT);

  private final PageServer server;
  private final PageServer.Settings settings;
  private final ReviewDesk desk = new ReviewDesk();

  ReviewRoutes(PageServer server, PageServer.Settings settings) {
    this.server = server;
    this.settings = settings;
  }

  void configure(RoutesConfig routes) {
    PageFiles files = new PageFiles();
    files.ofReview().forEach((path, file) -> routes.get(path, file::give));
    routes.get("/jobs/{job}/review", FAILURES.toPage(this::page));
    routes.get("/jobs/{job}/review.json", FAILURES.toPage(this::state));
    routes.get("/jobs/{job}/review/change", FAILURES.toPage(this::change));
    routes.post("/jobs/{job}/review/try", FAILURES.toPage(context -> act(context, true)));
    routes.post("/jobs/{job}/review/note", FAILURES.toPage(context -> act(context, false)));
    routes.post("/jobs/{job}/review/close", FAILURES.toPage(this::close));
  }

  private void page(Context context) {
    // An unknown job is told before the page is shown.
    CheckedJob unused = CheckedJob.read(settings.data(), context.pathParam("job"));
    context.header("Content-Security-Policy", PageServer.PAGE_POLICY + "; media-src 'self'");
    PageFiles.read("review.html").give(context);
  }

  // ---- the job as it stands

  private void state(Context context) {
    String job = context.pathParam("job");
    List<Doubt> doubts;
    boolean closed;
    try (LogReader log = SqliteLogs.openForReading(settings.data())) {
      doubts = desk.review(log, job).doubts();
      closed = log.choose(job).closed();
    }
    // Read behind them, it holds every entry that is doubtful, whatever is noted meanwhile.
    CheckedJob checked = CheckedJob.read(settings.data(), job);
    context
        .header("Cache-Control", "no-store")
        .contentType(JSON)
        .result(state(checked, doubts, closed).toString());
  }

  private static ObjectNode state(CheckedJob checked, List<Doubt> doubts, boolean closed) {
    JobRecord record = checked.record(Instant.EPOCH, null);
    Trail trail = Trail.of(record.entries());
    ShopTime time = ShopTime.of(record);
    StatementText text = new StatementText(record.plan(), trail, time);
    ObjectNode state = JsonNodeFactory.instance.objectNode();
    state.put("job", checked.job());
    state.put("plan", checked.plan().name());
    state.put("machine", checked.plan().machine().name());
    state.put("closed", closed);
    state.put("visit", checked.entries().stream().anyMatch(ReviewRoutes::isVisit) && !closed);
    ZoneId zone = checked.entries().get(0).zone();
    state.put("zone", zone.getId());
    ArrayNode verdict = state.putArray("verdict");
    for (JobWords.Verdict stage : JobWords.of(record).verdict()) {
      verdict
          .addObject()
          .put("question", stage.question())
          .put("answer", stage.answer())
          .put("reason", stage.reason());
    }
    Map<String, Long> numbers = new HashMap<>();
    checked.entries().forEach(entry -> numbers.put(entry.id(), entry.seq()));
    Map<String, Doubt.Why> why = new HashMap<>();
    doubts.forEach(doubt -> why.put(doubt.entry().id(), doubt.why()));
    ArrayNode order = state.putArray("doubts");
    doubts.forEach(doubt -> order.add(doubt.entry().seq()));
    ArrayNode entries = state.putArray("entries");
    for (Entry entry : checked.entries()) {
      ObjectNode node = entry(entry, trail, time, text, checked.plan(), why.get(entry.id()));
      // A time that is typed is one of the job's zone, so it is given in that.
      node.put("local", LOCAL.format(trail.happenedAt(entry).atZone(zone)));
      entries.add(node);
    }
    findings(state, checked.outcome(), numbers);
    return state;
  }

  private static boolean isVisit(Entry entry) {
    return entry.statement() instanceof Statement.VisitBegun;
  }

  private static ObjectNode entry(
      Entry entry,
      Trail trail,
      ShopTime time,
      StatementText text,
      Plan plan,
      Doubt.@Nullable Why why) {
    ObjectNode node = JsonNodeFactory.instance.objectNode();
    Instant happenedAt = trail.happenedAt(entry);
    node.put("seq", entry.seq());
    node.put("time", time.at(happenedAt, entry.zone()));
    node.put("noted", time.at(entry.recordedAt(), entry.zone()));
    node.put("who", plan.label(entry.actor()));
    node.put("words", entry.words());
    node.put("means", text.of(entry));
    heard(node, entry);
    node.put("struck", trail.struck(entry));
    trail.fate(entry).forEach(node.putArray("marks")::add);
    node.put("doubt", why == null ? "" : ReviewText.why(why));
    node.put("missed", why == Doubt.Why.NOT_UNDERSTOOD);
    node.put("confirmed", entry.confirmed());
    boolean picture = entry.statement() instanceof Statement.PictureTaken;
    node.put("sound", picture || entry.clip() == null ? "" : entry.clip());
    node.put("picture", picture ? entry.id() : "");
    node.put("fixed", isFixed(entry));
    node.put("edits", isEdit(entry.statement()));
    return node;
  }

  private static void heard(ObjectNode node, Entry entry) {
    ArrayNode heard = node.putArray("heard");
    for (String words : entry.readings()) {
      heard.addObject().put("words", words).put("taken", entry.took(words));
    }
    ArrayNode asked = node.putArray("asked");
    for (HowHeard.Asked each : entry.asked()) {
      asked.addObject().put("question", each.question()).put("answer", each.answer());
    }
  }

  /** What nobody can change: the frame of the job. */
  private static boolean isFixed(Entry entry) {
    Statement said = entry.statement();
    return said instanceof Statement.JobOpened
        || said instanceof Statement.JobClosed
        || said instanceof Statement.VisitBegun
        || (entry.source() == Source.TOOL && !isEdit(said));
  }

  private static boolean isEdit(Statement said) {
    return said instanceof Statement.Undone
        || said instanceof Statement.Corrected
        || said instanceof Statement.Retimed
        || said instanceof Statement.AddedLater
        || said instanceof Statement.FindingAnswered;
  }

  private static void findings(ObjectNode state, Outcome outcome, Map<String, Long> numbers) {
    ArrayNode findings = state.putArray("findings");
    for (Finding finding : outcome.findings()) {
      ObjectNode node = findings.addObject();
      finding(node, finding, numbers);
      answer(node, finding, outcome);
      ArrayNode followers = node.putArray("followers");
      for (Finding follower : finding.followers()) {
        ObjectNode below = followers.addObject();
        finding(below, follower, numbers);
        below.putArray("followers");
        answer(below, follower, outcome);
      }
    }
    ArrayNode answered = state.putArray("answered");
    for (Outcome.Answered each : outcome.settled()) {
      answered
          .addObject()
          .put("seq", each.entry().seq())
          .put("subject", ReviewText.subject(each))
          .put("says", ReviewText.answer(each));
    }
  }

  private static void answer(ObjectNode node, Finding finding, Outcome outcome) {
    Outcome.Answered answer = outcome.answerTo(finding);
    node.put("answer", answer == null ? "" : ReviewText.answer(answer));
  }

  private static void finding(ObjectNode node, Finding finding, Map<String, Long> numbers) {
    node.put("id", finding.id());
    node.put("weight", finding.weight().name().toLowerCase(Locale.ROOT));
    node.put("subject", finding.subject());
    node.put("says", finding.says());
    node.put("found", finding.found());
    node.put("expected", finding.expected());
    node.put("difference", finding.difference() == null ? "" : finding.difference());
    node.put("remedy", finding.remedy());
    evidence(node.withArray("evidence"), finding, numbers);
  }

  private static void evidence(ArrayNode into, Finding finding, Map<String, Long> numbers) {
    for (String id : finding.entries()) {
      Long number = numbers.get(id);
      boolean there = false;
      for (JsonNode each : into) {
        there |= number != null && each.asLong() == number;
      }
      if (number != null && !there) {
        into.add(number);
      }
    }
  }

  // ---- before and after

  private void change(Context context) {
    String job = context.pathParam("job");
    String seq = context.queryParam("seq");
    if (seq == null || !seq.matches("[0-9]{1,9}")) {
      throw new BadMessage("expected ?seq= and the number of an entry");
    }
    try (LogReader log = SqliteLogs.openForReading(settings.data())) {
      Review review = desk.review(log, job);
      ObjectNode answer = JsonNodeFactory.instance.objectNode();
      lines(
          answer,
          review.changedBy(Long.parseLong(seq)),
          TearDown.expected(review.plan(), review.entries()));
      context.contentType(JSON).result(answer.toString());
    }
  }

  private static void lines(ObjectNode into, Change change, Plan plan) {
    ArrayNode lines = into.putArray("lines");
    for (ReviewText.Line line : ReviewText.lines(change, plan)) {
      lines
          .addObject()
          .put("what", line.what())
          .put("before", line.before())
          .put("after", line.after());
    }
  }

  // ---- acts

  private void act(Context context, boolean only) {
    String job = context.pathParam("job");
    JsonNode asked = asked(context);
    ZoneId zone;
    try (LogReader log = SqliteLogs.openForReading(settings.data())) {
      zone = log.entries(job).get(0).zone();
    }
    Act act = act(asked, zone);
    ReviewDesk.Reviewer reviewer = reviewer(asked);
    String id = text(asked, "id");
    if (!id.matches("[0-9a-f-]{16,64}")) {
      throw new BadMessage("expected an id of its own for what is to be noted");
    }
    if (only) {
      look(context, job, act, reviewer);
      return;
    }
    ReviewDesk.Manner manner =
        asked.path("allTheSame").asBoolean()
            ? ReviewDesk.Manner.NOTE_ALL_THE_SAME
            : ReviewDesk.Manner.NOTE;
    ReviewDesk.Done done =
        writing(
            log -> desk.act(log, job, act, reviewer, manner, "review-" + id),
            ReviewDesk.Done::noted);
    ObjectNode answer = JsonNodeFactory.instance.objectNode();
    Proposal proposal = done.proposal();
    if (proposal != null) {
      proposed(answer, proposal, done.plan());
    }
    ArrayNode noted = answer.putArray("noted");
    done.noted().forEach(entry -> noted.add(entry.seq()));
    answer.put("visit", done.visit());
    context.contentType(JSON).result(answer.toString());
  }

  /** For that nobody needs to write, so it works while the program is getting ready, too. */
  private void look(Context context, String job, Act act, ReviewDesk.Reviewer reviewer) {
    ObjectNode answer = JsonNodeFactory.instance.objectNode();
    try (LogReader log = SqliteLogs.openForReading(settings.data())) {
      Plan plan = desk.review(log, job).plan();
      proposed(answer, desk.look(log, job, act, reviewer), plan);
    }
    context.contentType(JSON).result(answer.toString());
  }

  private static void proposed(ObjectNode answer, Proposal proposal, Plan plan) {
    lines(answer, proposal.change(), TearDown.expected(plan, List.of()));
    answer.put("doubt", proposal.doubt());
  }

  private void close(Context context) {
    String job = context.pathParam("job");
    ReviewDesk.Reviewer reviewer = reviewer(asked(context));
    if (job.equals(server.job())) {
      throw new WrongUse(
          "this job is being noted now; it is closed at the machine, by \"close the job\"");
    }
    Seal seal = writing(log -> desk.close(log, job, reviewer), done -> List.of());
    context
        .contentType(JSON)
        .result(JsonNodeFactory.instance.objectNode().put("seal", seal.toString()).toString());
  }

  /** Through the writer there is; refused while there is none. */
  private <T> T writing(Function<JobLog, T> work, Function<T, List<Entry>> noted) {
    CompletableFuture<T> result = server.withLog(work, noted);
    if (result == null) {
      throw new WrongUse("the program is still getting ready; try again in a moment");
    }
    try {
      return result.get(LONGEST_WAIT_S, TimeUnit.SECONDS);
    } catch (ExecutionException e) {
      if (e.getCause() instanceof RuntimeException cause) {
        throw cause;
      }
      throw new IllegalStateException(e);
    } catch (TimeoutException e) {
      throw new MachineFailed("the program is too busy just now; look whether it was noted", e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new MachineFailed("the program is ending", e);
    }
  }

  private static JsonNode asked(Context context) {
    try {
      JsonNode asked = MAPPER.readTree(context.body());
      if (!asked.isObject()) {
        throw new BadMessage("expected a JSON object");
      }
      return asked;
    } catch (JsonProcessingException e) {
      throw new BadMessage("expected JSON");
    }
  }

  private ReviewDesk.Reviewer reviewer(JsonNode asked) {
    return new ReviewDesk.Reviewer(text(asked, "name"), "page", settings.setting().clock());
  }

  private static Act act(JsonNode asked, ZoneId zone) {
    String why = text(asked, "why");
    String words = text(asked, "words");
    long seq = asked.path("seq").asLong();
    return switch (text(asked, "act")) {
      case "change" -> new Act.Change(seq, words, why);
      case "confirm" -> new Act.Confirm(seq, why);
      case "retime" -> new Act.Retime(seq, time(asked, zone), why);
      case "withdraw" -> new Act.Withdraw(seq, why);
      case "add" -> new Act.Add(words, time(asked, zone), why);
      case "now" -> new Act.Add(words, null, why);
      case "settle" -> new Act.Settle(seq, words, why);
      case "not-wanted" -> new Act.Settle(seq, null, why);
      case "fixed" -> answer(asked, FindingEnd.FIXED, why);
      case "accepted" -> answer(asked, FindingEnd.ACCEPTED, why);
      case "look-again" -> answer(asked, FindingEnd.LOOK_AGAIN, why);
      default -> throw new BadMessage("nobody knows that act");
    };
  }

  private static Act answer(JsonNode asked, FindingEnd end, String why) {
    String by = text(asked, "by");
    return new Act.Answer(
        text(asked, "finding"),
        text(asked, "read"),
        end,
        by.isBlank() ? text(asked, "name") : by,
        why,
        day(asked));
  }

  private static String text(JsonNode asked, String name) {
    return asked.path(name).asText("");
  }

  private static Instant time(JsonNode asked, ZoneId zone) {
    try {
      return ClockTime.at(LocalDateTime.parse(text(asked, "at")), zone);
    } catch (DateTimeParseException e) {
      throw new ReviewRefused("when did it happen? give day and time");
    }
  }

  private static @Nullable LocalDate day(JsonNode asked) {
    String day = text(asked, "again");
    if (day.isEmpty()) {
      return null;
    }
    try {
      return LocalDate.parse(day);
    } catch (DateTimeParseException e) {
      throw new ReviewRefused("on which day? give it as 2026-03-02");
    }
  }
}
