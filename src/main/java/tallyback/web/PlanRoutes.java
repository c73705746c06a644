package tallyback.web;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.net.URI;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.app.JobDesk;
import tallyback.app.LoadedPlan;
import tallyback.app.PlanShelf;
import tallyback.app.Prepared;
import tallyback.app.WrongUse;
import tallyback.log.JobSummary;
import tallyback.log.LogReader;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Weight;
import tallyback.plan.ManualGaps;
import tallyback.plan.Plan;
import tallyback.plan.PlanFault;
import tallyback.plan.PlanReader;
import tallyback.plan.PlanReading;
import tallyback.planning.PlanLint;
import tallyback.report.PlanView;
import tallyback.report.SquareCode;

/**
 * What the page of plans asks for: the list, a plan's text, what is wrong with it, and to keep it
 * or begin a job of it. A plan comes and goes as plain text in UTF-8, all else as JSON. Who may ask
 * was settled before.
 */
final class PlanRoutes {

  /** Where the page is. */
  static final String PAGE = "/plans";

  private static final String SCRIPT = "text/javascript; charset=utf-8";
  private static final String JSON = "application/json; charset=utf-8";
  private static final String HTML = "text/html; charset=utf-8";
  private static final Failures FAILURES =
      Failures.USUAL
          .with(PlanShelf.ChangedMeanwhile.class, 409)
          .with(IllegalArgumentException.class, 400);

  /** The sheet brings its style along, and nothing that runs. */
  private static final String SHEET_POLICY =
      "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none';"
          + " frame-ancestors 'none'; sandbox";

  private final PageServer server;
  private final PageServer.Settings settings;
  private final PlanShelf shelf;
  private final @Nullable PhoneGate phones;
  private final SecureRandom random = new SecureRandom();
  private final Object oneLook = new Object();

  PlanRoutes(
      PageServer server,
      PageServer.Settings settings,
      PlanShelf shelf,
      @Nullable PhoneGate phones) {
    this.server = server;
    this.settings = settings;
    this.shelf = shelf;
    this.phones = phones;
  }

  void configure(RoutesConfig routes) {
    PageFiles files = new PageFiles();
    String page =
        new String(PageFiles.read("plans.html").bytes(), StandardCharsets.UTF_8)
            .replace("{importmap}", EditorModules.importMap());
    String policy =
        PageServer.PAGE_POLICY.replace(
            "script-src 'self'", "script-src 'self' " + EditorModules.importMapHash());
    routes.get(PAGE, context -> page(context, page, policy));
    files.ofPlans().forEach((path, file) -> routes.get(path, file::give));
    EditorModules.byPath()
        .forEach(
            (path, module) ->
                routes.get(path, context -> context.contentType(SCRIPT).result(module)));
    byte[] schema = PlanShelf.schema().getBytes(StandardCharsets.UTF_8);
    routes.get("/plans/plan.schema.json", context -> context.contentType(JSON).result(schema));
    routes.get("/plans/list", FAILURES.toPage(this::list));
    routes.get("/plans/text", FAILURES.toPage(this::text));
    routes.post("/plans/lint", FAILURES.toPage(this::lint));
    routes.post("/plans/fill", FAILURES.toPage(this::fill));
    routes.put("/plans/text", FAILURES.toPage(this::keep));
    routes.post("/plans/new", FAILURES.toPage(this::keepNew));
    routes.post("/plans/begin", FAILURES.toPage(this::begin));
    routes.post("/plans/go-on", FAILURES.toPage(this::goOn));
    routes.get("/plans/sheet", FAILURES.toPage(this::sheet));
    routes.get("/plans/code.svg", FAILURES.toPage(this::code));
  }

  /** The editor brings its style by script, which the policy lets pass by a word of this answer. */
  private void page(Context context, String page, String policy) {
    byte[] bytes = new byte[18];
    random.nextBytes(bytes);
    String nonce = Base64.getEncoder().encodeToString(bytes);
    context
        .header(
            "Content-Security-Policy",
            policy.replace("style-src 'self'", "style-src 'self' 'nonce-" + nonce + "'"))
        .header("Cache-Control", "no-store")
        .contentType(HTML)
        .result(page.replace("{nonce}", nonce));
  }

  private static void answer(Context context, ObjectNode answer) {
    context.contentType(JSON).result(answer.toString());
  }

  private static String asked(Context context, String name) {
    String value = context.queryParam(name);
    if (value == null || value.isBlank()) {
      throw new BadMessage("expected ?" + name + "=");
    }
    return value;
  }

  private void list(Context context) {
    ObjectNode answer = JsonNodeFactory.instance.objectNode();
    ArrayNode plans = answer.putArray("plans");
    shelf.list().forEach(card -> plans.add(card(card)));
    answer.put("folder", shelf.folder().toString());
    answer.put("job", server.job());
    answer.put("phones", phones != null);
    ArrayNode jobs = answer.putArray("jobs");
    for (JobSummary job : openJobs()) {
      jobs.addObject()
          .put("id", job.id())
          .put("plan", job.planName())
          .put("entries", job.entryCount());
    }
    answer(context, answer);
  }

  private List<JobSummary> openJobs() {
    Path data = settings.data();
    if (!Files.exists(data)) {
      return List.of();
    }
    try (LogReader reader = SqliteLogs.openForReading(data)) {
      return reader.jobs().stream().filter(job -> !job.closed()).toList();
    }
  }

  private static ObjectNode card(PlanShelf.Card card) {
    return JsonNodeFactory.instance
        .objectNode()
        .put("id", card.id())
        .put("kind", card.kind().name().toLowerCase(Locale.ROOT))
        .put("name", card.name())
        .put("file", card.file())
        .put("toEnter", card.toEnter());
  }

  private void text(Context context) {
    answer(context, opened(shelf.open(asked(context, "plan"))));
  }

  private static ObjectNode opened(PlanShelf.Opened opened) {
    return JsonNodeFactory.instance
        .objectNode()
        .put("hash", opened.hash())
        .put("text", opened.text())
        .set("plan", card(opened.card()));
  }

  private void lint(Context context) {
    answer(context, look(name(context), context.body()));
  }

  /** The name that stands in messages: the file's, as on the command line. */
  private static String name(Context context) {
    String name = context.queryParam("file");
    return name == null || name.isBlank() ? "plan.yaml" : name;
  }

  /** One at a time: a look takes a good part of a second, and somebody may be speaking. */
  private ObjectNode look(String name, String text) {
    synchronized (oneLook) {
      PlanLint lint = LoadedPlan.lint(name, text);
      PlanReading reading = PlanReader.read(name, text);
      ObjectNode answer = JsonNodeFactory.instance.objectNode();
      Weight heaviest = lint.heaviest().orElse(null);
      answer.put("usable", heaviest != Weight.STOP && reading.plan().isPresent());
      faults(answer.putArray("faults"), lint.faults());
      ArrayNode gaps = answer.putArray("gaps");
      for (ManualGaps.Gap gap : ManualGaps.of(text)) {
        ObjectNode each = gaps.addObject();
        each.put("line", gap.line()).put("column", gap.column());
        each.put("of", gap.of()).put("field", gap.field());
        gap.answers().forEach(each.putArray("answers")::add);
      }
      reading
          .draft()
          .ifPresent(
              plan -> {
                answer.set("view", view(PlanView.of(plan, reading.places())));
                answer.set("ids", ids(plan));
              });
      return answer;
    }
  }

  private static void faults(ArrayNode array, List<PlanFault> faults) {
    for (PlanFault fault : faults) {
      array
          .addObject()
          .put("weight", fault.weight().name().toLowerCase(Locale.ROOT))
          .put("line", fault.line())
          .put("column", fault.column())
          .put("text", fault.weighedText());
    }
  }

  private static ObjectNode ids(Plan plan) {
    ObjectNode ids = JsonNodeFactory.instance.objectNode();
    ArrayNode items = ids.putArray("items");
    plan.items().forEach(item -> items.add(item.id()));
    ArrayNode places = ids.putArray("places");
    plan.places().forEach(place -> places.add(place.id()));
    ArrayNode steps = ids.putArray("steps");
    plan.steps().forEach(step -> steps.add(step.id()));
    ArrayNode fluids = ids.putArray("fluids");
    plan.fluids().forEach(fluid -> fluids.add(fluid.id()));
    ArrayNode systems = ids.putArray("systems");
    plan.systems().forEach(system -> systems.add(system.id()));
    return ids;
  }

  private static ObjectNode view(PlanView view) {
    ObjectNode shown = JsonNodeFactory.instance.objectNode();
    shown.put("name", view.name()).put("machine", view.machine());
    ArrayNode tables = shown.putArray("tables");
    for (PlanView.Table table : view.tables()) {
      ObjectNode each = tables.addObject().put("title", table.title());
      table.columns().forEach(each.putArray("columns")::add);
      ArrayNode rows = each.putArray("rows");
      for (PlanView.Row row : table.rows()) {
        ObjectNode line = rows.addObject().put("line", row.line());
        row.cells().forEach(line.putArray("cells")::add);
        row.below().forEach(line.putArray("below")::add);
      }
    }
    return shown;
  }

  /** Puts a value into the text that it was sent; nothing is kept by that. */
  private void fill(Context context) {
    Map<String, String> written = new HashMap<>();
    context.queryParamMap().forEach((name, values) -> written.put(name, values.get(0)));
    ManualGaps.Filled filled =
        ManualGaps.fill(
            name(context),
            context.body(),
            number(context, "line"),
            number(context, "column"),
            written);
    ObjectNode answer = JsonNodeFactory.instance.objectNode();
    answer.put("text", filled.text()).put("line", filled.line());
    faults(answer.putArray("wrong"), filled.wrong());
    answer(context, answer);
  }

  private static int number(Context context, String name) {
    String value = asked(context, name);
    if (!value.matches("[0-9]{1,7}")) {
      throw new BadMessage("expected ?" + name + "= and a number");
    }
    return Integer.parseInt(value);
  }

  private void keep(Context context) {
    kept(context, shelf.keep(asked(context, "plan"), context.body(), asked(context, "hash")));
  }

  private void keepNew(Context context) {
    kept(context, shelf.keepNew(asked(context, "name"), context.body()));
  }

  private static void kept(Context context, PlanShelf.Kept kept) {
    ObjectNode answer = opened(kept.opened());
    answer.put("copy", kept.copy().map(path -> path.getFileName().toString()).orElse(""));
    answer(context, answer);
  }

  /** Begins a job of a plan as it is kept; the one that is noted now stays open. */
  private void begin(Context context) {
    PlanShelf.Opened opened = shelf.open(asked(context, "plan"));
    LoadedPlan plan = LoadedPlan.of(opened.card().file(), opened.text(), settings.plan().voices());
    String job = JobDesk.freshJob(settings.data());
    server.goOnWith(plan, job);
    answer(context, JsonNodeFactory.instance.objectNode().put("job", job));
  }

  private void goOn(Context context) {
    String job = asked(context, "job");
    if (openJobs().stream().noneMatch(each -> each.id().equals(job))) {
      throw new WrongUse("job " + job + " is not open any more; choose another from the list");
    }
    server.goOnWith(LoadedPlan.forJob(null, settings.data(), job, settings.plan().voices()), job);
    answer(context, JsonNodeFactory.instance.objectNode().put("job", job));
  }

  private void sheet(Context context) {
    PlanShelf.Opened opened = shelf.open(asked(context, "plan"));
    LoadedPlan plan = LoadedPlan.of(opened.card().file(), opened.text());
    Optional<Path> data = Optional.of(settings.data()).filter(Files::exists);
    context
        .header("Content-Security-Policy", SHEET_POLICY)
        .contentType(HTML)
        .result(Prepared.before(plan, data).page());
  }

  /** Where a phone finds a plan, as a picture; and in words in a header of its own. */
  private void code(Context context) {
    String id = shelf.open(asked(context, "plan")).card().id();
    if (phones == null) {
      throw new WrongUse(PageTexts.NO_PHONES);
    }
    URI page = phones.door().address();
    String address =
        page.resolve(PAGE + "?plan=" + URLEncoder.encode(id, StandardCharsets.UTF_8)).toString();
    context
        .header("X-Address", address)
        .contentType("image/svg+xml")
        .result(SquareCode.svg(address));
  }
}
