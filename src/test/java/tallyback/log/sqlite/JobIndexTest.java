package tallyback.log.sqlite;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.log.Draft;
import tallyback.log.Examples;
import tallyback.log.JobLog;
import tallyback.log.JobRow;
import tallyback.log.JobSearch;
import tallyback.log.JobsFound;
import tallyback.log.JobsFound.Found;
import tallyback.log.LogReader;
import tallyback.log.LogRefused;
import tallyback.log.SearchText;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.About;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.JobClosed;
import tallyback.model.Statement.Memo;
import tallyback.model.Statement.Undone;
import tallyback.model.Statement.VisitBegun;
import tallyback.model.Statement.Written;

/** The list of jobs and what is searched in: made of the entries, always the same as they. */
final class JobIndexTest {

  private static final String PLAN =
      """
      tallyback-plan: 1
      name: Mill stone dressed
      machine:
        name: Corven Grist 7
        serial: CG-0071
        sides: seen from the hopper
      places:
        - id: odd-place
          say: [script]
      items:
        - id: hopper-bolts
          say: [hopper bolts, funnel bolts]
          thing: bolt
          count: 4
      """;

  @TempDir private Path folder;
  private Path file = Path.of("");
  private int number;

  @BeforeEach
  void newFile() {
    file = folder.resolve("jobs.tallyback");
  }

  private Draft draft(String job, String id, Instant at, String words, Statement statement) {
    return new Draft(
        id,
        job,
        at,
        at,
        ZoneOffset.UTC,
        "anna",
        "page",
        Source.TYPED,
        Certainty.CONFIRMED,
        words,
        statement);
  }

  private static Instant day(int day) {
    return Instant.parse("2026-03-01T08:00:00Z").plus(Duration.ofDays(day));
  }

  private void open(JobLog log, String job, int day, String plan) {
    log.openJob(
        draft(
            job,
            job + "-open",
            day(day),
            "job opened",
            new Statement.JobOpened(
                plan.isEmpty() ? "no plan" : "Mill stone dressed", Examples.hash(plan), plan)));
  }

  private String say(JobLog log, String job, int day, String words, Statement statement) {
    number++;
    Entry entry = log.append(draft(job, "n" + number, day(day), words, statement), null);
    return entry.id();
  }

  private static List<String> ids(JobsFound found) {
    return found.jobs().stream().map(each -> each.job().id()).toList();
  }

  private List<String> found(JobSearch search) {
    try (LogReader log = SqliteLogs.openForReading(file)) {
      return ids(log.find(search));
    }
  }

  private List<String> words(String words) {
    return found(JobSearch.ALL.withWords(words));
  }

  private void threeJobs() {
    try (JobLog log = SqliteLogs.openForWriting(file)) {
      open(log, "monday", 1, PLAN);
      say(
          log,
          "monday",
          1,
          "four off",
          new Statement.ItemsMoved(
              Statement.ItemMove.OFF, "hopper-bolts", null, 4, false, null, null, null));
      say(log, "monday", 1, "memo the spindle hums", new Memo(null, "the spindle hums"));
      say(log, "monday", 2, "job closed", new JobClosed());
      open(log, "tuesday", 2, "");
      say(
          log,
          "tuesday",
          2,
          "owner: Mar\u00eda Quist",
          new Written(About.OWNER, "Mar\u00eda Quist"));
      say(log, "tuesday", 2, "memo the spindle is quiet", new Memo(null, "the spindle is quiet"));
      open(log, "wednesday", 3, PLAN);
      say(
          log,
          "wednesday",
          3,
          "seen at <script>alert(1)</script>",
          new Statement.ProblemSeen(Statement.Trouble.WORN, "odd-place"));
    }
  }

  @Test
  void theNewestComesFirstWithWhatItIsOf() {
    threeJobs();
    try (LogReader log = SqliteLogs.openForReading(file)) {
      JobsFound all = log.find(JobSearch.ALL);
      assertEquals(List.of("wednesday", "tuesday", "monday"), ids(all));
      assertEquals(3, all.all());
      assertFalse(all.more());
      JobRow monday = all.jobs().get(2).job();
      assertEquals("Corven Grist 7", monday.machine());
      assertEquals("CG-0071", monday.serial());
      assertEquals("Mill stone dressed", monday.plan());
      assertEquals(JobRow.State.CLOSED, monday.state());
      assertEquals(day(2), monday.lastAt());
      assertEquals(4, monday.entries());
      assertEquals("Mar\u00eda Quist", all.jobs().get(1).job().owner());
      assertEquals(monday, log.row("monday"));
      assertThrows(LogRefused.class, () -> log.row("sunday"));
    }
  }

  @Test
  void whatWasSaidIsFoundWithItsTimeAndWords() {
    threeJobs();
    try (LogReader log = SqliteLogs.openForReading(file)) {
      Found found = log.find(JobSearch.ALL.withWords("hums SPIND")).jobs().get(0);
      assertEquals("monday", found.job().id());
      assertEquals(1, found.hits());
      assertEquals("memo the spindle hums", found.first().get(0).words());
      assertEquals(day(1), found.first().get(0).at());
      assertEquals(3, found.first().get(0).seq());
    }
    assertEquals(List.of("tuesday", "monday"), words("spindle"));
    assertEquals(List.of(), words("spindle silent"));
    assertEquals(List.of(), words("pindle"), "not in the middle of a word");
  }

  @Test
  void thePlansNamesOfThingsAreFoundThoughNobodySaidThem() {
    threeJobs();
    assertEquals(List.of("monday"), words("funnel bolts"));
    assertEquals(List.of("monday"), words("funnel corven"), "machine and entry together");
    assertEquals(List.of("wednesday", "monday"), words("grist 0071"));
    assertEquals(List.of("tuesday"), words("maria qui"), "accents and case don't count");
    assertEquals(List.of("monday"), words("mond"));
    assertEquals(List.of("wednesday"), words("<script>"));
  }

  @Test
  void filtersNarrowIt() {
    threeJobs();
    assertEquals(List.of("wednesday", "monday"), found(JobSearch.ALL.withMachine("corven")));
    assertEquals(List.of("tuesday"), found(JobSearch.ALL.withMachine("quist")));
    assertEquals(List.of("wednesday", "monday"), found(JobSearch.ALL.withPlan("mill stone")));
    assertEquals(List.of(), found(JobSearch.ALL.withPlan("corven")));
    assertEquals(List.of("wednesday", "tuesday"), found(JobSearch.ALL.withOnlyOpen(true)));
    assertEquals(List.of("tuesday"), found(JobSearch.ALL.withTime(day(2), day(3))));
    assertEquals(
        List.of("wednesday"),
        found(JobSearch.ALL.withWords("job").withMachine("corven").withOnlyOpen(true)));
  }

  @Test
  void aLongListIsReadPageByPage() {
    try (JobLog log = SqliteLogs.openForWriting(file)) {
      for (int job = 0; job < 7; job++) {
        open(log, "job-" + job, job / 2, "");
      }
    }
    List<String> read = new ArrayList<>();
    try (LogReader log = SqliteLogs.openForReading(file)) {
      String before = null;
      boolean more = true;
      while (more) {
        JobsFound page = log.find(JobSearch.ALL.withCount(3).withBefore(before));
        assertEquals(7, page.all());
        read.addAll(ids(page));
        before = read.get(read.size() - 1);
        more = page.more();
      }
      assertThrows(LogRefused.class, () -> log.find(JobSearch.ALL.withBefore("nobody")));
    }
    assertEquals(List.of("job-6", "job-5", "job-4", "job-3", "job-2", "job-1", "job-0"), read);
  }

  @Test
  void theOwnerIsWhoStandsInTheEnd() {
    try (JobLog log = SqliteLogs.openForWriting(file)) {
      open(log, "a", 1, "");
      String first = say(log, "a", 1, "owner: one", new Written(About.OWNER, "one"));
      String second = say(log, "a", 1, "owner: two", new Written(About.OWNER, "two"));
      assertEquals("two", log.row("a").owner());
      String undo = say(log, "a", 1, "scratch that", new Undone(second));
      assertEquals("one", log.row("a").owner());
      say(log, "a", 1, "scratch that", new Undone(undo));
      assertEquals("two", log.row("a").owner());
      say(log, "a", 1, "put right", new Corrected(second, new Written(About.OWNER, "three")));
      assertEquals("three", log.row("a").owner());
      assertEquals(List.of("a"), ids(log.find(JobSearch.ALL.withMachine("three"))));
      assertEquals(List.of(), ids(log.find(JobSearch.ALL.withMachine("two"))));
      assertEquals(1, log.find(JobSearch.ALL.withWords("owner one")).jobs().get(0).hits());
      assertFalse(first.isEmpty());
    }
  }

  @Test
  void anOwnerWhoWasAddedLaterIsTheOwner() {
    try (JobLog log = SqliteLogs.openForWriting(file)) {
      open(log, "a", 1, "");
      String added =
          say(
              log,
              "a",
              2,
              "owner: one",
              new Statement.AddedLater(new Written(About.OWNER, "one"), "forgotten"));
      assertEquals("one", log.row("a").owner());
      say(log, "a", 3, "withdrawn", new Undone(added));
      assertEquals("", log.row("a").owner());
    }
  }

  @Test
  void whoAnsweredAFindingIsFound() {
    try (JobLog log = SqliteLogs.openForWriting(file)) {
      open(log, "a", 1, "");
      say(
          log,
          "a",
          2,
          "agreed to: his wish",
          new Statement.FindingAnswered(
              "problem-open n1",
              "worn",
              Statement.FindingEnd.ACCEPTED,
              "Orrin Vale",
              "his wish",
              null));
      assertEquals(List.of("a"), ids(log.find(JobSearch.ALL.withWords("orrin vale"))));
    }
  }

  @Test
  void aHitThatWasTakenBackSaysSo() {
    try (JobLog log = SqliteLogs.openForWriting(file)) {
      open(log, "a", 1, "");
      String memo = say(log, "a", 1, "memo cracked flange", new Memo(null, "cracked flange"));
      assertFalse(
          log.find(JobSearch.ALL.withWords("flange")).jobs().get(0).first().get(0).withdrawn());
      say(log, "a", 1, "scratch that", new Undone(memo));
      assertTrue(
          log.find(JobSearch.ALL.withWords("flange")).jobs().get(0).first().get(0).withdrawn());
    }
  }

  /** Against the entries themselves, with an own way of looking for words. */
  @Test
  void whatIsKeptIsWhatTheEntriesSayForRandomJobs() throws SQLException {
    for (long seed = 1; seed <= 6; seed++) {
      Path each = folder.resolve("random-" + seed);
      Random random = new Random(seed);
      String context = "seed " + seed;
      try (JobLog log = SqliteLogs.openForWriting(each)) {
        randomJobs(log, random);
        assertSameAsEntries(log, random, context);
      }
      try (LogReader log = SqliteLogs.openForReading(each)) {
        assertSameAsEntries(log, random, context);
        assertEquals(List.of(), log.verify().notices(), context);
      }
      List<JobRow> kept = rows(each);
      BulkFile.takeIndexOut(each);
      byte[] before = bytes(each);
      try (LogReader log = SqliteLogs.openForReading(each)) {
        assertSameAsEntries(log, random, context + ", older schema, in memory");
      }
      assertEquals(kept, rows(each), context);
      assertTrue(java.util.Arrays.equals(before, bytes(each)), "looking changes nothing");
      List<String> told = new ArrayList<>();
      try (JobLog log =
          SqliteLogs.openForWriting(each, (done, all) -> told.add(done + " of " + all))) {
        assertSameAsEntries(log, random, context + ", upgraded");
        assertEquals(List.of(), log.verify().problems(), context);
        assertEquals(List.of(), log.verify().notices(), context);
      }
      assertEquals(List.of(), told, "so few are not worth telling of");
    }
  }

  private static byte[] bytes(Path file) {
    try {
      return Files.readAllBytes(file);
    } catch (IOException e) {
      throw new AssertionError(e);
    }
  }

  private static List<JobRow> rows(Path file) {
    try (LogReader log = SqliteLogs.openForReading(file)) {
      return log.find(JobSearch.ALL.withCount(1000)).jobs().stream().map(Found::job).toList();
    }
  }

  private static final String[] VOCABULARY = {
    "hopper",
    "hop",
    "spindle",
    "\u00dcber",
    "uber",
    "left",
    "12-mm",
    "o'ring",
    "ring",
    "a",
    "corven"
  };

  private void randomJobs(JobLog log, Random random) {
    int jobs = 3 + random.nextInt(8);
    Map<String, List<String>> ids = new LinkedHashMap<>();
    for (int job = 0; job < jobs; job++) {
      open(log, "j" + job, random.nextInt(5), random.nextBoolean() ? PLAN : "");
      ids.put("j" + job, new ArrayList<>());
    }
    for (int entry = 0; entry < 60; entry++) {
      String job = "j" + random.nextInt(jobs);
      List<String> known = Objects.requireNonNull(ids.get(job));
      boolean closed = log.row(job).closed();
      Statement statement = closed ? new VisitBegun("again") : randomStatement(random, known);
      StringBuilder words = new StringBuilder();
      for (int word = random.nextInt(4); word >= 0; word--) {
        words.append(VOCABULARY[random.nextInt(VOCABULARY.length)]).append(' ');
      }
      known.add(say(log, job, random.nextInt(9), words.toString().strip(), statement));
    }
  }

  private static Statement randomStatement(Random random, List<String> known) {
    String target = known.isEmpty() ? "" : known.get(random.nextInt(known.size()));
    return switch (random.nextInt(7)) {
      case 0 -> new Written(About.OWNER, VOCABULARY[random.nextInt(VOCABULARY.length)]);
      case 1 -> target.isEmpty() ? new Memo() : new Undone(target);
      case 2 ->
          target.isEmpty()
              ? new Memo()
              : new Corrected(target, new Written(About.OWNER, "corrected"));
      case 3 -> new JobClosed();
      case 4 ->
          new Statement.ItemsMoved(
              Statement.ItemMove.ON, "hopper-bolts", null, 1, false, null, "odd-place", null);
      default -> new Memo(null, VOCABULARY[random.nextInt(VOCABULARY.length)]);
    };
  }

  private static void assertSameAsEntries(LogReader log, Random random, String context) {
    Map<String, JobRow> rows = new HashMap<>();
    log.find(JobSearch.ALL.withCount(1000))
        .jobs()
        .forEach(each -> rows.put(each.job().id(), each.job()));
    Map<String, List<Entry>> entries = new LinkedHashMap<>();
    for (var summary : log.jobs()) {
      entries.put(summary.id(), log.entries(summary.id()));
    }
    assertEquals(entries.keySet(), rows.keySet(), context);
    entries.forEach(
        (job, told) -> {
          JobRow row = Objects.requireNonNull(rows.get(job));
          Statement.JobOpened opened = (Statement.JobOpened) told.get(0).statement();
          assertEquals(opened.planName(), row.plan(), context);
          assertEquals(opened.planText().isEmpty() ? "" : "Corven Grist 7", row.machine(), context);
          assertEquals(told.size(), row.entries(), context);
          assertEquals(told.get(0).happenedAt(), row.openedAt(), context);
          assertEquals(
              told.stream().map(Entry::happenedAt).max(Comparator.naturalOrder()).orElseThrow(),
              row.lastAt(),
              context);
          assertEquals(
              told.stream().filter(each -> each.statement() instanceof JobClosed).count(),
              row.closings(),
              context);
          assertEquals(
              told.get(told.size() - 1).statement() instanceof JobClosed, row.closed(), context);
        });
    for (int question = 0; question < 40; question++) {
      String one = VOCABULARY[random.nextInt(VOCABULARY.length)];
      String asked =
          random.nextBoolean() ? one : one + " " + VOCABULARY[random.nextInt(VOCABULARY.length)];
      asked = random.nextInt(4) == 0 ? asked.substring(0, (asked.length() + 1) / 2) : asked;
      Map<String, Long> expected = new HashMap<>();
      for (Map.Entry<String, List<Entry>> job : entries.entrySet()) {
        expected(asked, Objects.requireNonNull(rows.get(job.getKey())), job.getValue(), expected);
      }
      Map<String, Long> found =
          log.find(JobSearch.ALL.withWords(asked).withCount(1000)).jobs().stream()
              .collect(Collectors.toMap(each -> each.job().id(), Found::hits));
      assertEquals(expected, found, context + ", asked for " + asked);
    }
  }

  private static void expected(
      String asked, JobRow row, List<Entry> entries, Map<String, Long> expected) {
    List<String> named =
        tokens(
            row.id()
                + " "
                + row.plan()
                + " "
                + row.machine()
                + " "
                + Objects.requireNonNullElse(row.serial(), "")
                + " "
                + row.owner());
    List<String> rest = tokens(asked).stream().filter(word -> !begins(named, word)).toList();
    List<String> all = rest.isEmpty() ? tokens(asked) : rest;
    Statement.JobOpened opened = (Statement.JobOpened) entries.get(0).statement();
    SearchText text = SearchText.ofPlan(opened.planText());
    long hits =
        entries.stream()
            .map(text::of)
            .map(JobIndexTest::tokens)
            .filter(words -> all.stream().allMatch(word -> begins(words, word)))
            .count();
    if (hits > 0 || rest.isEmpty()) {
      expected.put(row.id(), hits);
    }
  }

  private static boolean begins(List<String> words, String wanted) {
    return words.stream().anyMatch(word -> word.startsWith(wanted));
  }

  private static List<String> tokens(String text) {
    String plain =
        java.text.Normalizer.normalize(text, java.text.Normalizer.Form.NFD)
            .replaceAll("\\p{M}", "")
            .toLowerCase(Locale.ROOT);
    return java.util.Arrays.stream(plain.split("[^\\p{L}\\p{N}]+"))
        .filter(word -> !word.isEmpty())
        .toList();
  }

  @Test
  void theFileOfTheFirstSchemaIsListedAndSearchedAndLeftAsItIs() throws IOException {
    byte[] first;
    try (InputStream in =
        Objects.requireNonNull(
            JobIndexTest.class.getResourceAsStream("/fixtures/log-schema-1.db"))) {
      first = in.readAllBytes();
    }
    Files.write(file, first);
    try (LogReader log = SqliteLogs.openForReading(file)) {
      assertEquals(
          List.of("pump", "belt"),
          ids(log.find(JobSearch.ALL)).stream().sorted(Comparator.reverseOrder()).toList());
      assertEquals(List.of("pump"), ids(log.find(JobSearch.ALL.withWords("outlet nuts"))));
    }
    assertTrue(java.util.Arrays.equals(first, Files.readAllBytes(file)));
  }

  @Test
  void aReaderSeesWhatAWriterNotesMeanwhile() throws SQLException {
    threeJobs();
    try (LogReader reader = SqliteLogs.openForReading(file);
        JobLog writer = SqliteLogs.openForWriting(file)) {
      assertEquals(List.of(), ids(reader.find(JobSearch.ALL.withWords("gasket"))));
      say(writer, "tuesday", 4, "memo gasket", new Memo(null, "gasket"));
      assertEquals(List.of("tuesday"), ids(reader.find(JobSearch.ALL.withWords("gasket"))));
    }
  }

  @Test
  void aJobOfANewerVersionIsListedAsSuchAndSpoilsNothing() throws SQLException {
    threeJobs();
    BulkFile.addNewer(
        file,
        draft(
            "later",
            "l1",
            day(9),
            "job opened",
            new Statement.JobOpened("Roof <b>", Examples.hash(PLAN), PLAN)),
        draft("later", "l2", day(9), "memo weathercock", new Memo(null, "weathercock")));
    // Looked at before anybody writes, and after.
    for (int round = 0; round < 2; round++) {
      try (LogReader log = SqliteLogs.openForReading(file)) {
        assertEquals(4, log.jobs().size());
        Found later = log.find(JobSearch.ALL).jobs().get(0);
        assertEquals("later", later.job().id());
        assertEquals("Roof <b>", later.job().plan());
        assertEquals("Corven Grist 7", later.job().machine());
        assertEquals(
            "entry 1: written by a newer version of Tallyback (schema 2, this version reads"
                + " up to 1); use the newer version",
            later.job().unread());
        assertEquals(List.of("later"), ids(log.find(JobSearch.ALL.withWords("weathercock"))));
        assertEquals(4, log.entries("monday").size());
        assertThrows(LogRefused.class, () -> log.entries("later"));
      }
      SqliteLogs.openForWriting(file).close();
    }
  }

  @Test
  void noInputIsAnErrorOrASyntax() {
    threeJobs();
    try (LogReader log = SqliteLogs.openForReading(file)) {
      for (String plain :
          List.of(
              "spindle OR quiet",
              "spindle NOT hums",
              "NEAR(spindle hums)",
              "words : spindle",
              "spindle ^ hums",
              "spindle AND",
              "^spindle ^",
              "{a b} : c")) {
        List<String> words = tokens(plain);
        List<String> expected =
            words.equals(List.of("spindle"))
                ? List.of("tuesday", "monday")
                : words.equals(List.of("spindle", "hums")) ? List.of("monday") : List.of();
        assertEquals(expected, ids(log.find(JobSearch.ALL.withWords(plain))), plain);
      }
      assertEquals(
          List.of("tuesday", "monday"), ids(log.find(JobSearch.ALL.withWords("\"spindle*\""))));
      assertEquals(
          List.of("tuesday", "monday"),
          ids(log.find(JobSearch.ALL.withWords("spindle + ) ( - * \" ' ; --"))));
      assertEquals(3, log.find(JobSearch.ALL.withWords("*** \"\" ()")).all(), "no word, so all");
      long seed = 4711;
      Random random = new Random(seed);
      String signs =
          "\"*'()^:+-{}[]\\ \u0000\u0301\u200b\ud83d\udd27\udc00ANDORNOTNEAR/,19\u00df\u0130";
      for (int round = 0; round < 3000; round++) {
        StringBuilder text = new StringBuilder();
        for (int length = random.nextInt(30); length > 0; length--) {
          text.append(
              random.nextInt(4) == 0
                  ? Character.toString(random.nextInt(0x30000))
                  : String.valueOf(signs.charAt(random.nextInt(signs.length()))));
        }
        String asked = text.toString();
        JobSearch search =
            switch (random.nextInt(3)) {
              case 0 -> JobSearch.ALL.withWords(asked);
              case 1 -> JobSearch.ALL.withMachine(asked);
              default -> JobSearch.ALL.withPlan(asked);
            };
        assertTrue(log.find(search).all() <= 3, () -> "seed " + seed + ": " + asked);
      }
      assertEquals(0, log.find(JobSearch.ALL.withWords("x ".repeat(200))).all());
    }
    assertThrows(LogRefused.class, () -> JobSearch.ALL.withWords("x".repeat(401)));
    assertThrows(LogRefused.class, () -> JobSearch.ALL.withCount(0));
  }

  @Test
  void anIndexThatSaysOtherwiseIsNoTruthAndIsMadeAnew() throws SQLException {
    threeJobs();
    TestFile.tamper(file, "UPDATE job_row SET plan = 'another', entries = 9 WHERE job = 'monday'");
    try (LogReader log = SqliteLogs.openForReading(file)) {
      assertEquals("Mill stone dressed", log.row("monday").plan(), "read from the entries instead");
      assertEquals(List.of(), log.verify().problems());
      assertEquals(1, log.verify().notices().size());
    }
    SqliteLogs.openForWriting(file).close();
    try (LogReader log = SqliteLogs.openForReading(file)) {
      assertEquals("Mill stone dressed", log.row("monday").plan());
      assertEquals(List.of(), log.verify().notices());
    }
  }

  @Test
  void anIndexThatIsBrokenKeepsNobodyFromNoting() throws SQLException {
    threeJobs();
    try (JobLog log = SqliteLogs.openForWriting(file)) {
      TestFile.tamper(file, "DROP TABLE entry_words");
      say(log, "tuesday", 5, "memo still noted", new Memo(null, "still noted"));
      assertEquals(4, log.entries("tuesday").size());
      assertEquals(List.of("tuesday"), ids(log.find(JobSearch.ALL.withWords("still"))));
      say(log, "tuesday", 5, "memo and again", new Memo(null, "and again"));
      assertEquals(List.of("tuesday"), ids(log.find(JobSearch.ALL.withWords("again"))));
      assertEquals(List.of(), log.verify().problems());
    }
    SqliteLogs.openForWriting(file).close();
    try (LogReader log = SqliteLogs.openForReading(file)) {
      assertEquals(List.of("tuesday"), ids(log.find(JobSearch.ALL.withWords("still noted"))));
      assertEquals(List.of(), log.verify().notices());
    }
  }

  @Test
  void aRetryIsFoundOnce() {
    try (JobLog log = SqliteLogs.openForWriting(file)) {
      open(log, "a", 1, "");
      Draft memo = draft("a", "same", day(1), "memo once", new Memo(null, "once"));
      assertEquals(log.append(memo, null), log.append(memo, null));
      open(log, "a", 1, "");
      assertEquals(1, log.find(JobSearch.ALL.withWords("once")).jobs().get(0).hits());
      assertEquals(2, log.row("a").entries());
    }
  }
}
