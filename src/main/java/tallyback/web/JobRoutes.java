package tallyback.web;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tallyback.app.CheckedJob;
import tallyback.app.JobHistory;
import tallyback.app.JobHistory.Figures;
import tallyback.app.JobsJson;
import tallyback.app.KeptSounds;
import tallyback.app.WrongUse;
import tallyback.log.JobRow;
import tallyback.log.JobSearch;
import tallyback.log.JobsFound;
import tallyback.log.JobsFound.Found;
import tallyback.log.LogFailed;
import tallyback.log.LogReader;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.report.HtmlRecord;
import tallyback.report.JobsSheet;
import tallyback.report.JobsText;

/**
 * What the page of all jobs asks for: the list, what was found in each, two side by side, the
 * trends of a machine, a job's record. Who may ask was settled before. Threads of the server take
 * turns with the log. {@link #close} lets go of the data file.
 */
final class JobRoutes implements AutoCloseable {

  private static final String JSON = "application/json; charset=utf-8";
  private static final String HTML = "text/html; charset=utf-8";
  private static final Failures FAILURES = Failures.USUAL.with(IllegalArgumentException.class, 400);

  /** Sheets run nothing, and bring their style along. */
  private static final String SHEET_POLICY =
      "default-src 'none'; style-src {style}; media-src data:; base-uri 'none'; form-action 'none';"
          + " frame-ancestors 'none'";

  /** The record has style in many places, as in a file. */
  private static final String IN_PLACES = "'unsafe-inline'";

  /** Figures of so many jobs are kept. */
  private static final int MOST_FIGURES = 5_000;

  /** No page asks for more at once. */
  private static final int MOST_ASKED = 100;

  /** A job has the same figures as long as it has as many entries: none is ever changed. */
  private record Known(String job, long entries) {}

  private final PageServer.Settings settings;
  private final Supplier<@Nullable String> jobNow;
  private final Object oneAtATime = new Object();
  private final Map<Known, Optional<Figures>> figures =
      new LinkedHashMap<>(16, 0.75f, true) {
        private static final long serialVersionUID = 1;

        @Override
        protected boolean removeEldestEntry(Map.Entry<Known, Optional<Figures>> eldest) {
          return size() > MOST_FIGURES;
        }
      };

  /** Guarded by {@link #oneAtATime}. */
  private @Nullable LogReader log;

  JobRoutes(PageServer.Settings settings, Supplier<@Nullable String> jobNow) {
    this.settings = settings;
    this.jobNow = jobNow;
  }

  void configure(RoutesConfig routes) {
    PageFiles files = new PageFiles();
    routes.get(JobLinks.ALL, PageFiles.read("jobs.html")::give);
    files.ofJobs().forEach((path, file) -> routes.get(path, file::give));
    if (settings.plans() == null) {
      PageFiles.PageFile style = PageFiles.read("plans.css");
      routes.get("/plans.css", style::give);
    }
    routes.get("/jobs/list", FAILURES.toPage(this::list));
    routes.get("/jobs/figures", FAILURES.toPage(this::figures));
    routes.get("/jobs/compare", FAILURES.toReader(this::compare));
    routes.get("/jobs/trends", FAILURES.toReader(this::trends));
    routes.get("/jobs/{job}/record", FAILURES.toReader(this::record));
  }

  /** Work with the data file, which stays open between, as somebody types. */
  private <T> T reading(java.util.function.Function<LogReader, T> work) {
    synchronized (oneAtATime) {
      LogReader reader = log;
      if (reader == null) {
        reader = SqliteLogs.openForReading(data());
        log = reader;
      }
      try {
        return work.apply(reader);
      } catch (LogFailed e) {
        close();
        throw e;
      }
    }
  }

  private Path data() {
    Path data = settings.data();
    if (!Files.exists(data)) {
      throw new WrongUse(PageTexts.NO_DATA);
    }
    return data;
  }

  private void list(Context context) {
    JobSearch search = search(context);
    JobsFound found =
        Files.exists(settings.data())
            ? reading(reader -> reader.find(search))
            : new JobsFound(List.of(), 0, false);
    ObjectNode answer = JsonNodeFactory.instance.objectNode();
    answer.put("now", jobNow.get());
    answer.put("plans", settings.plans() != null);
    answer.put("all", found.all()).put("more", found.more());
    ArrayNode jobs = answer.putArray("jobs");
    for (Found each : found.jobs()) {
      ObjectNode job = JobsJson.of(each, kept(each.job()));
      job.put("stateSays", JobsText.state(each.job().closed(), each.job().closings()));
      job.put(
          "machineSays",
          JobsText.machine(each.job().machine(), each.job().serial(), each.job().owner()));
      ArrayNode links = job.putArray("links");
      JobLinks.of(each.job().id())
          .forEach(link -> links.addObject().put("says", link.says()).put("path", link.path()));
      jobs.add(job);
    }
    context.contentType(JSON).result(answer.toString());
  }

  private JobSearch search(Context context) {
    return JobSearch.ALL
        .withWords(given(context, "words"))
        .withMachine(given(context, "machine"))
        .withPlan(given(context, "plan"))
        .withTime(day(context, "since", 0), day(context, "until", 1))
        .withOnlyOpen(!given(context, "open").isEmpty())
        .withBefore(given(context, "before").isEmpty() ? null : given(context, "before"));
  }

  private static String given(Context context, String name) {
    String value = context.queryParam(name);
    return value == null ? "" : value;
  }

  private @Nullable Instant day(Context context, String name, int days) {
    String value = given(context, name);
    if (value.isEmpty()) {
      return null;
    }
    try {
      return LocalDate.parse(value)
          .plusDays(days)
          .atStartOfDay(settings.setting().zone())
          .toInstant();
    } catch (DateTimeParseException e) {
      throw new BadMessage("expected a day such as 2026-03-02, found \"" + value + "\"");
    }
  }

  private Optional<Figures> kept(JobRow job) {
    synchronized (oneAtATime) {
      return figures.getOrDefault(new Known(job.id(), job.entries()), Optional.empty());
    }
  }

  /** What takes a few milliseconds for each job comes after the list. */
  private void figures(Context context) {
    List<String> asked = context.queryParams("job");
    if (asked.size() > MOST_ASKED) {
      throw new BadMessage("expected at most " + MOST_ASKED + " jobs");
    }
    ObjectNode answer = JsonNodeFactory.instance.objectNode();
    for (String id : asked) {
      Optional<Figures> known = reading(reader -> figures(reader, reader.row(id)));
      ObjectNode each = answer.putObject(id);
      known.ifPresent(
          its ->
              each.put("worked", JobsText.worked(its.worked()))
                  .put("findings", JobsText.findings(its.stops(), its.checks(), its.notes()))
                  .put("stops", its.stops()));
    }
    context.contentType(JSON).result(answer.toString());
  }

  /** Under the lock. */
  private Optional<Figures> figures(LogReader reader, JobRow row) {
    Known key = new Known(row.id(), row.entries());
    Optional<Figures> known = figures.get(key);
    if (known == null) {
      known = JobHistory.figures(reader, row);
      figures.put(key, known);
    }
    return known;
  }

  private static String asked(Context context, String name) {
    String value = given(context, name);
    if (value.isBlank()) {
      throw new BadMessage("expected ?" + name + "=");
    }
    return value;
  }

  private void compare(Context context) {
    sheet(
        context,
        JobsSheet.of(
            JobHistory.compare(data(), asked(context, "one"), asked(context, "other")),
            JobLinks::record));
  }

  private void trends(Context context) {
    JobHistory.OfMachine found = JobHistory.trends(data(), asked(context, "job"), "");
    sheet(context, JobsSheet.of(found.trends(), found.machine(), found.lead(), JobLinks::record));
  }

  private static void sheet(Context context, JobsSheet sheet) {
    String page = sheet.page(JobLinks.ALL, PageTexts.ALL_JOBS);
    int from = page.indexOf("<style>") + "<style>".length();
    give(context, page, hash(page.substring(from, page.indexOf("</style>"))));
  }

  private void record(Context context) {
    CheckedJob job = CheckedJob.read(data(), context.pathParam("job"));
    give(
        context,
        HtmlRecord.page(
            job.record(settings.setting().clock().instant(), null)
                .with(KeptSounds.read(data(), job.entries()))),
        IN_PLACES);
  }

  private static void give(Context context, String page, String style) {
    context
        .header("Content-Security-Policy", SHEET_POLICY.replace("{style}", style))
        .contentType(HTML)
        .result(page);
  }

  /** As a policy names a style (CSP Level 3, 8.3). */
  private static String hash(String style) {
    try {
      byte[] digest =
          MessageDigest.getInstance("SHA-256").digest(style.getBytes(StandardCharsets.UTF_8));
      return "'sha256-" + Base64.getEncoder().encodeToString(digest) + "'";
    } catch (NoSuchAlgorithmException e) {
      throw new AssertionError("every Java platform has SHA-256", e);
    }
  }

  @Override
  public void close() {
    synchronized (oneAtATime) {
      LogReader reader = log;
      log = null;
      if (reader != null) {
        reader.close();
      }
    }
  }
}
