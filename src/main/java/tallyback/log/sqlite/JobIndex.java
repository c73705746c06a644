package tallyback.log.sqlite;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sqlite.SQLiteConfig;
import tallyback.log.EntryJson;
import tallyback.log.JobRow;
import tallyback.log.JobSearch;
import tallyback.log.JobsFound;
import tallyback.log.JobsFound.Found;
import tallyback.log.JobsFound.Hit;
import tallyback.log.LogRefused;
import tallyback.log.Progress;
import tallyback.log.SearchText;
import tallyback.model.Entry;
import tallyback.model.Statement;
import tallyback.model.Statement.About;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.JobOpened;
import tallyback.model.Statement.Undone;
import tallyback.model.Statement.Written;

/**
 * The tables by which jobs are listed and searched: a row for each job, its names, and the words of
 * every entry. All of it is made of the entries and can be made of them anew at any time; it is no
 * part of the chain of hashes, and nothing that is told of a job's content rests on it.
 *
 * <p>They lie in the data file, and are written in the transaction that notes an entry; or, for a
 * file of an older schema that is only looked at, in memory. Used under the log's monitor.
 */
final class JobIndex {

  /** Raised whenever these tables are filled otherwise than before. */
  static final int VERSION = 200 + SearchText.VERSION;

  private static final String TOKENS = "tokenize = 'unicode61 remove_diacritics 2'";

  private static final String MADE =
      """
      CREATE TABLE index_made (
        version INTEGER NOT NULL
      ) STRICT""";

  private static final String JOB_ROW =
      """
      CREATE TABLE job_row (
        number INTEGER NOT NULL PRIMARY KEY,
        job TEXT NOT NULL UNIQUE,
        plan TEXT NOT NULL,
        plan_hash TEXT NOT NULL,
        machine TEXT NOT NULL,
        serial TEXT,
        owner TEXT NOT NULL,
        opened_at_ms INTEGER NOT NULL,
        zone TEXT NOT NULL,
        last_at_ms INTEGER NOT NULL,
        entries INTEGER NOT NULL,
        closed INTEGER NOT NULL,
        closings INTEGER NOT NULL,
        unread TEXT NOT NULL
      ) STRICT""";

  private static final String JOB_ROW_BY_TIME =
      "CREATE INDEX job_row_by_time ON job_row (opened_at_ms, job)";

  private static final String JOB_WORDS =
      "CREATE VIRTUAL TABLE job_words USING fts5(job, plan, machine, " + TOKENS + ")";

  // Without the words themselves, which stand in the entries. A row's id is the number of its job
  // times 2^32, and the number of the entry.
  private static final String ENTRY_WORDS =
      "CREATE VIRTUAL TABLE entry_words USING fts5(words, content = '', columnsize = 0,"
          + " prefix = '1 2 3', "
          + TOKENS
          + ")";

  /** What makes the tables, empty. */
  static final List<String> STATEMENTS =
      List.of(MADE, JOB_ROW, JOB_ROW_BY_TIME, JOB_WORDS, ENTRY_WORDS);

  /** The tables by name, those of the search itself too. */
  static final Set<String> NAMES =
      Set.of(
          "index_made",
          "job_row",
          "job_row_by_time",
          "job_words",
          "job_words_data",
          "job_words_idx",
          "job_words_content",
          "job_words_docsize",
          "job_words_config",
          "entry_words",
          "entry_words_data",
          "entry_words_idx",
          "entry_words_docsize",
          "entry_words_config");

  private static final String COLUMNS =
      "r.number, r.job, r.plan, r.plan_hash, r.machine, r.serial, r.owner, r.opened_at_ms, r.zone,"
          + " r.last_at_ms, r.entries, r.closed, r.closings, r.unread";

  private static final int ENTRY_BITS = 32;

  /** Plans are kept read for so many jobs. */
  private static final int MOST_PLANS = 200;

  /** How far an index is made is told so often, in entries. */
  private static final int TOLD_EVERY = 5_000;

  private static final ObjectMapper MAPPER = new ObjectMapper();

  private final Database tables;
  private final Database entries;
  private final Map<String, SearchText> textByJob = ofTheLast(MOST_PLANS);
  private final Map<String, SearchText> textByPlan = ofTheLast(MOST_PLANS);

  private boolean comparedWithEntries;

  /**
   * An index.
   *
   * @param tables where its tables are
   * @param entries where the entries are
   */
  JobIndex(Database tables, Database entries) {
    this.tables = tables;
    this.entries = entries;
  }

  /** Keeps so many, those asked for last. */
  private static <T> Map<String, T> ofTheLast(int most) {
    return new LinkedHashMap<>(16, 0.75f, true) {
      private static final long serialVersionUID = 1;

      @Override
      protected boolean removeEldestEntry(Map.Entry<String, T> eldest) {
        return size() > most;
      }
    };
  }

  /** One in memory, empty yet; closed by whoever asked for it. */
  static JobIndex inMemory(Database entries) throws SQLException {
    Database memory = new Database(new SQLiteConfig().createConnection("jdbc:sqlite::memory:"));
    boolean ready = false;
    try {
      for (String statement : STATEMENTS) {
        memory.execute(statement);
      }
      ready = true;
      return new JobIndex(memory, entries);
    } finally {
      if (!ready) {
        memory.close();
      }
    }
  }

  /** Lets go of one in memory. */
  void close() throws SQLException {
    tables.close();
  }

  // ---- keeping it

  /** Makes the tables anew, within the caller's transaction, and fills them. */
  void makeAnew(Progress progress) throws SQLException {
    drop();
    for (String statement : STATEMENTS) {
      tables.execute(statement);
    }
    int unused = tables.update("INSERT INTO index_made (version) VALUES (?)", VERSION);
    catchUp(progress);
    comparedWithEntries = true;
  }

  private void drop() throws SQLException {
    for (String table : List.of("entry_words", "job_words", "job_row", "index_made")) {
      tables.execute("DROP TABLE IF EXISTS " + table);
    }
  }

  /** From now on nothing may be read from it until it is made anew. */
  void giveUp() throws SQLException {
    int unused = tables.update("UPDATE index_made SET version = 0");
  }

  /** Whether what it says can be relied on. */
  boolean isCurrent() throws SQLException {
    boolean made =
        tables
                .first(
                    "SELECT count(*) FROM sqlite_schema WHERE name = 'index_made'",
                    row -> row.getLong(1))
                .orElse(0L)
            == 1;
    if (!made
        || tables.first("SELECT version FROM index_made", row -> row.getLong(1)).orElse(0L)
            != VERSION) {
      return false;
    }
    if (!comparedWithEntries) {
      comparedWithEntries =
          behind().isEmpty() && tables.number(COUNT_JOBS) == entries.number(COUNT_ENDS);
    }
    return comparedWithEntries;
  }

  /** The same; what can't be read at all is not. */
  boolean isCurrentAndWhole() {
    try {
      return isCurrent();
    } catch (SQLException damaged) {
      return false;
    }
  }

  private static final String COUNT_JOBS = "SELECT count(*) FROM job_row";
  private static final String COUNT_ENDS = "SELECT count(*) FROM job_end";

  /** How far a job is in the log, and how far it is here. */
  private record Behind(String job, long from, long to) {}

  private List<Behind> behind() throws SQLException {
    Map<String, Long> here = new HashMap<>();
    tables.list(
        "SELECT job, entries FROM job_row",
        row -> here.put(row.getString(1), row.getLong(2)) == null);
    List<Behind> behind = new ArrayList<>();
    entries.list(
        "SELECT job, seq FROM job_end ORDER BY job",
        row -> {
          long known = here.getOrDefault(row.getString(1), 0L);
          return known == row.getLong(2)
              || behind.add(new Behind(row.getString(1), known, row.getLong(2)));
        });
    return behind;
  }

  /** The same for one in memory, where no transaction is under way. */
  void follow() throws SQLException {
    if (!behind().isEmpty()) {
      Void unused =
          tables.<@Nullable Void>writing(
              () -> {
                catchUp(Progress.UNTOLD);
                return null;
              });
    }
  }

  /** Takes in whatever was noted since. */
  void catchUp(Progress progress) throws SQLException {
    List<Behind> behind = behind();
    long all = behind.stream().mapToLong(each -> each.to() - each.from()).sum();
    long done = 0;
    long told = 0;
    for (Behind each : behind) {
      List<EntryRow> rows =
          entries.list(
              "SELECT " + EntryRow.COLUMNS + " FROM entry WHERE job = ? AND seq > ? ORDER BY seq",
              EntryRow::at,
              each.job(),
              each.from());
      for (EntryRow row : rows) {
        add(row);
        done++;
      }
      if (done - told >= TOLD_EVERY) {
        told = done;
        progress.at(done, all);
      }
    }
    if (told > 0) {
      progress.at(all, all);
    }
  }

  /** Takes in an entry that was just noted, in the same transaction. */
  void add(EntryRow row) throws SQLException {
    Entry entry = null;
    String unread = "";
    try {
      entry = EntryJson.read(row.json());
    } catch (LogRefused refused) {
      unread =
          "entry "
              + row.seq()
              + ": "
              + String.valueOf(refused.getMessage()).replaceFirst("^entry: ", "");
    }
    long number = row.seq() == 1 ? begin(row, entry) : goOn(row);
    if (!unread.isEmpty()) {
      int unused =
          tables.update(
              "UPDATE job_row SET unread = ? WHERE number = ? AND unread = ''", unread, number);
    }
    String words = entry == null ? row.words() : textOf(row.job()).of(entry);
    int unused =
        tables.update(
            "INSERT INTO entry_words (rowid, words) VALUES (?, ?)",
            (number << ENTRY_BITS) + row.seq(),
            words);
    if (changesOwner(row, entry)) {
      keepOwner(row.job(), number);
    }
  }

  private long begin(EntryRow row, @Nullable Entry entry) throws SQLException {
    long number = tables.number("SELECT coalesce(max(number), 0) + 1 FROM job_row");
    SearchText text = textOf(row.job());
    String plan = "";
    String hash = "";
    if (entry != null && entry.statement() instanceof JobOpened opened) {
      plan = opened.planName();
      hash = opened.planHash();
    } else {
      JsonNode lenient = lenient(row.json());
      plan = lenient.path("planName").asText("");
      hash = lenient.path("planHash").asText("");
    }
    int unusedRows =
        tables.update(
            "INSERT INTO job_row (number, job, plan, plan_hash, machine, serial, owner,"
                + " opened_at_ms, zone, last_at_ms, entries, closed, closings, unread)"
                + " VALUES (?, ?, ?, ?, ?, ?, '', ?, ?, ?, 1, 0, 0, '')",
            number,
            row.job(),
            plan,
            hash,
            text.machine(),
            text.serial(),
            row.happenedAtMs(),
            row.zone(),
            row.happenedAtMs());
    int unused =
        tables.update(
            "INSERT INTO job_words (rowid, job, plan, machine) VALUES (?, ?, ?, ?)",
            number,
            row.job(),
            plan,
            machineWords(text.machine(), text.serial(), ""));
    return number;
  }

  private static String machineWords(String machine, @Nullable String serial, String owner) {
    return machine + " " + Objects.requireNonNullElse(serial, "") + " " + owner;
  }

  private static JsonNode lenient(String json) {
    try {
      return MAPPER.readTree(json);
    } catch (JsonProcessingException damaged) {
      return MAPPER.createObjectNode();
    }
  }

  private long goOn(EntryRow row) throws SQLException {
    long number = numberOf(row.job());
    boolean closes = row.kind().equals("job-closed");
    int unused =
        tables.update(
            "UPDATE job_row SET last_at_ms = max(last_at_ms, ?), entries = ?, closed = ?,"
                + " closings = closings + ? WHERE number = ?",
            row.happenedAtMs(),
            row.seq(),
            closes ? 1 : 0,
            closes ? 1 : 0,
            number);
    return number;
  }

  private long numberOf(String job) throws SQLException {
    return tables
        .first("SELECT number FROM job_row WHERE job = ?", row -> row.getLong(1), job)
        .orElseThrow(() -> new SQLException("job " + job + " is missing from the index"));
  }

  /** Names of the plan frozen in a job. */
  private SearchText textOf(String job) throws SQLException {
    SearchText known = textByJob.get(job);
    if (known != null) {
      return known;
    }
    String plan =
        entries
            .first(
                "SELECT json FROM entry WHERE job = ? AND seq = 1",
                row -> lenient(row.getString(1)).path("planText").asText(""),
                job)
            .orElse("");
    SearchText text = textByPlan.computeIfAbsent(plan, SearchText::ofPlan);
    textByJob.put(job, text);
    return text;
  }

  private static boolean changesOwner(EntryRow row, @Nullable Entry entry) {
    return row.kind().equals("undo")
        || row.kind().equals("correction")
        || (entry != null
            && entry.said() instanceof Written written
            && written.about() == About.OWNER);
  }

  private void keepOwner(String job, long number) throws SQLException {
    String owner = owner(job);
    int changed =
        tables.update(
            "UPDATE job_row SET owner = ? WHERE number = ? AND owner <> ?", owner, number, owner);
    if (changed > 0) {
      int unused =
          tables.update(
              "UPDATE job_words SET machine = (SELECT machine || ' ' || coalesce(serial, '') || ' '"
                  + " || owner FROM job_row WHERE number = ?) WHERE rowid = ?",
              number,
              number);
    }
  }

  /** Whose machine it is: the last that was typed and stands. */
  private String owner(String job) throws SQLException {
    List<Entry> told = editing(job, true);
    Set<String> withdrawn = new HashSet<>();
    Map<String, Statement> now = new HashMap<>();
    String owner = "";
    for (int index = told.size() - 1; index >= 0; index--) {
      Entry entry = told.get(index);
      if (withdrawn.contains(entry.id())) {
        continue;
      }
      if (entry.statement() instanceof Undone undone && undone.target() != null) {
        boolean unused = withdrawn.add(undone.target());
      } else if (entry.statement() instanceof Corrected corrected) {
        now.putIfAbsent(corrected.target(), corrected.now());
      } else if (now.getOrDefault(entry.id(), entry.said()) instanceof Written written
          && written.about() == About.OWNER
          && owner.isEmpty()) {
        owner = written.text();
      }
    }
    return owner;
  }

  /** What may change others, by its number; with words for the owner or without. */
  private List<Entry> editing(String job, boolean written) throws SQLException {
    List<Entry> all = new ArrayList<>();
    entries.list(
        "SELECT json FROM entry WHERE job = ? AND kind IN ('undo', 'correction'"
            + (written ? ", 'written', 'added-later'" : "")
            + ") ORDER BY seq",
        row -> {
          try {
            return all.add(EntryJson.read(row.getString(1)));
          } catch (LogRefused newer) {
            return false;
          }
        },
        job);
    return all;
  }

  /**
   * Whether each job's row in a file says what its entries say, in all that can be told by columns
   * and openings. The words are SQLite's to check.
   */
  static boolean saysWhatEntriesSay(Database file) throws SQLException {
    JobIndex index = new JobIndex(file, file);
    if (!index.isCurrentAndWhole()) {
      return false;
    }
    Map<String, String> said = new HashMap<>();
    file.list(
        "SELECT job, count(*), max(happened_at_ms), sum(kind = 'job-closed') FROM entry GROUP BY"
            + " job",
        row ->
            said.put(row.getString(1), row.getLong(2) + " " + row.getLong(3) + " " + row.getLong(4))
                == null);
    return file
        .list(
            "SELECT r.job, r.entries || ' ' || r.last_at_ms || ' ' || r.closings, r.plan,"
                + " r.plan_hash, r.opened_at_ms, o.json, o.happened_at_ms FROM job_row r LEFT JOIN"
                + " entry o ON o.job = r.job AND o.seq = 1",
            row -> {
              JsonNode opening = lenient(Objects.requireNonNullElse(row.getString(6), ""));
              return row.getString(2).equals(said.get(row.getString(1)))
                  && row.getString(3).equals(opening.path("planName").asText(""))
                  && row.getString(4).equals(opening.path("planHash").asText(""))
                  && row.getLong(5) == row.getLong(7);
            })
        .stream()
        .allMatch(same -> same);
  }

  // ---- asking it

  /** Every job, the one opened first first. */
  List<JobRow> all() throws SQLException {
    return tables.list(
        "SELECT " + COLUMNS + " FROM job_row r ORDER BY r.opened_at_ms, r.job", JobIndex::row);
  }

  Optional<JobRow> row(String job) throws SQLException {
    return tables.first(
        "SELECT " + COLUMNS + " FROM job_row r WHERE r.job = ?", JobIndex::row, job);
  }

  private static JobRow row(ResultSet row) throws SQLException {
    return new JobRow(
        row.getString(2),
        row.getString(3),
        row.getString(4),
        row.getString(5),
        row.getString(6),
        row.getString(7),
        Instant.ofEpochMilli(row.getLong(8)),
        ZoneId.of(row.getString(9)),
        Instant.ofEpochMilli(row.getLong(10)),
        row.getLong(11),
        row.getLong(12) != 0,
        row.getInt(13),
        row.getString(14));
  }

  /** A job by its number. */
  private record Numbered(long number, JobRow row) {}

  /** Entries that hold what the job's names don't, and how many do. */
  private record Match(String rest, long hits) {}

  JobsFound find(JobSearch search) throws SQLException {
    List<String> words = SearchWords.in(search.words());
    Map<Long, Match> matches = words.isEmpty() ? Map.of() : matches(words);
    StringBuilder where = new StringBuilder("1 = 1");
    List<@Nullable Object> values = new ArrayList<>();
    if (!words.isEmpty()) {
      where.append(" AND r.number IN (SELECT value FROM json_each(?))");
      values.add(matches.keySet().toString());
    }
    byName("machine", search.machine(), where, values);
    byName("plan", search.plan(), where, values);
    if (search.since() != null) {
      where.append(" AND r.opened_at_ms >= ?");
      values.add(search.since().toEpochMilli());
    }
    if (search.until() != null) {
      where.append(" AND r.opened_at_ms < ?");
      values.add(search.until().toEpochMilli());
    }
    if (search.onlyOpen()) {
      where.append(" AND r.closed = 0");
    }
    long all =
        tables
            .first(
                "SELECT count(*) FROM job_row r WHERE " + where,
                row -> row.getLong(1),
                values.toArray())
            .orElse(0L);
    if (search.before() != null) {
      long number = requireNumber(search.before());
      where.append(
          " AND (r.opened_at_ms, r.job) < (SELECT b.opened_at_ms, b.job FROM job_row b WHERE"
              + " b.number = ?)");
      values.add(number);
    }
    values.add(search.count() + 1);
    List<Numbered> page =
        tables.list(
            "SELECT "
                + COLUMNS
                + " FROM job_row r WHERE "
                + where
                + " ORDER BY r.opened_at_ms DESC, r.job DESC LIMIT ?",
            row -> new Numbered(row.getLong(1), row(row)),
            values.toArray());
    boolean more = page.size() > search.count();
    List<Numbered> shown = more ? page.subList(0, search.count()) : page;
    Map<Long, List<Long>> hits = hits(shown, matches);
    List<Found> found = new ArrayList<>();
    for (Numbered each : shown) {
      Match match = matches.get(each.number());
      found.add(
          new Found(
              each.row(),
              match == null ? 0 : match.hits(),
              hits(each.row().id(), hits.getOrDefault(each.number(), List.of()))));
    }
    return new JobsFound(found, all, more);
  }

  private static void byName(
      String column, String text, StringBuilder where, List<@Nullable Object> values) {
    List<String> words = SearchWords.in(text);
    if (!words.isEmpty()) {
      where.append(" AND r.number IN (SELECT rowid FROM job_words WHERE job_words MATCH ?)");
      values.add(column + " : (" + SearchWords.allOf(words) + ")");
    }
  }

  private long requireNumber(String job) throws SQLException {
    Optional<Long> number =
        tables.first("SELECT number FROM job_row WHERE job = ?", row -> row.getLong(1), job);
    return number.orElseThrow(
        () -> new LogRefused("no job \"" + job + "\" in this data file; begin the list anew"));
  }

  /**
   * The jobs that hold all the words. Those whose names hold some of them are asked for the others
   * alone.
   */
  private Map<Long, Match> matches(List<String> words) throws SQLException {
    Map<Long, BitSet> named = new HashMap<>();
    for (int index = 0; index < words.size(); index++) {
      int word = index;
      tables.list(
          "SELECT rowid FROM job_words WHERE job_words MATCH ?",
          row -> {
            named.computeIfAbsent(row.getLong(1), key -> new BitSet()).set(word);
            return true;
          },
          SearchWords.allOf(List.of(words.get(word))));
    }
    Map<Long, Match> matches = new HashMap<>();
    String all = SearchWords.allOf(words);
    tables.list(
        "SELECT rowid >> 32, count(*) FROM entry_words WHERE entry_words MATCH ? GROUP BY 1",
        row -> matches.put(row.getLong(1), new Match(all, row.getLong(2))) == null,
        all);
    Map<BitSet, List<Long>> alike =
        named.entrySet().stream()
            .collect(
                Collectors.groupingBy(
                    Map.Entry::getValue,
                    Collectors.mapping(Map.Entry::getKey, Collectors.toList())));
    for (Map.Entry<BitSet, List<Long>> group : alike.entrySet()) {
      List<String> rest = new ArrayList<>();
      for (int index = 0; index < words.size(); index++) {
        if (!group.getKey().get(index)) {
          rest.add(words.get(index));
        }
      }
      if (rest.isEmpty()) {
        group.getValue().forEach(number -> matches.putIfAbsent(number, new Match("", 0)));
      } else {
        String others = SearchWords.allOf(rest);
        tables.list(
            "SELECT rowid >> 32, count(*) FROM entry_words WHERE entry_words MATCH ? AND rowid >>"
                + " 32 IN (SELECT value FROM json_each(?)) GROUP BY 1",
            row -> matches.put(row.getLong(1), new Match(others, row.getLong(2))) == null,
            others,
            group.getValue().toString());
      }
    }
    return matches;
  }

  /** Numbers of the first entries of each job that hold the words. */
  private Map<Long, List<Long>> hits(List<Numbered> jobs, Map<Long, Match> matches)
      throws SQLException {
    Map<String, List<Long>> alike = new HashMap<>();
    for (Numbered job : jobs) {
      Match match = matches.get(job.number());
      if (match != null && match.hits() > 0) {
        alike.computeIfAbsent(match.rest(), key -> new ArrayList<>()).add(job.number());
      }
    }
    Map<Long, List<Long>> hits = new HashMap<>();
    for (Map.Entry<String, List<Long>> group : alike.entrySet()) {
      tables.list(
          "SELECT rowid >> 32, rowid & 4294967295 FROM entry_words WHERE entry_words MATCH ? AND"
              + " rowid >> 32 IN (SELECT value FROM json_each(?)) ORDER BY rowid",
          row -> {
            List<Long> first = hits.computeIfAbsent(row.getLong(1), key -> new ArrayList<>());
            return first.size() < JobsFound.MOST_HITS && first.add(row.getLong(2));
          },
          group.getKey(),
          group.getValue().toString());
    }
    return hits;
  }

  private List<Hit> hits(String job, List<Long> numbers) throws SQLException {
    if (numbers.isEmpty()) {
      return List.of();
    }
    Set<String> withdrawn = withdrawn(job);
    List<Hit> hits = new ArrayList<>();
    for (long seq : numbers) {
      entries
          .first(
              "SELECT happened_at_ms, zone, words, id FROM entry WHERE job = ? AND seq = ?",
              row ->
                  new Hit(
                      seq,
                      Instant.ofEpochMilli(row.getLong(1)),
                      ZoneId.of(row.getString(2)),
                      row.getString(3),
                      withdrawn.contains(row.getString(4))),
              job,
              seq)
          .ifPresent(hits::add);
    }
    return hits;
  }

  /** Ids of entries that were taken back or put right. */
  private Set<String> withdrawn(String job) throws SQLException {
    List<Entry> editing = editing(job, false);
    Set<String> withdrawn = new HashSet<>();
    for (int index = editing.size() - 1; index >= 0; index--) {
      Entry entry = editing.get(index);
      if (!withdrawn.contains(entry.id())) {
        if (entry.statement() instanceof Undone undone && undone.target() != null) {
          boolean unused = withdrawn.add(undone.target());
        } else if (entry.statement() instanceof Corrected corrected) {
          boolean unused = withdrawn.add(corrected.target());
        }
      }
    }
    return withdrawn;
  }
}
