package tallyback.app;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.net.URI;
import java.net.URL;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tallyback.audio.AudioRefused;
import tallyback.dialogue.Reply;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Verdict;
import tallyback.report.JobRecord;

/**
 * The main job on the bundled recordings: hears them, notes them in a fresh data file, reconciles,
 * and compares with what is expected. The recordings come with the times they were made at and
 * nothing else; what they say is only in their sound.
 */
public final class Demo {

  private static final ObjectMapper JSON = new ObjectMapper();

  private final Path folder;

  private Demo(Path folder) {
    this.folder = folder;
  }

  /**
   * What the demo came to.
   *
   * @param checked the job
   * @param heard what was listened to
   * @param data the data file
   * @param record the record as a page
   * @param differences how the outcome differs from the expected one, one line each
   */
  public record Result(
      CheckedJob checked, JobRecord.Heard heard, Path data, Path record, List<String> differences) {

    /** Copies the list. */
    public Result {
      differences = List.copyOf(differences);
    }
  }

  /** Told how far the hearing is. */
  @FunctionalInterface
  public interface Progress {

    /**
     * One more recording was dealt with.
     *
     * @param done recordings so far
     * @param of recordings in all
     * @param last what became of its last utterance, or null when it held none
     */
    void heard(int done, int of, RecordedSound.@Nullable Told last);
  }

  /**
   * Runs the bundled demo.
   *
   * @param out the folder for data file and record; made when there is none
   * @param clock for when things are noted
   * @param progress told about each recording
   */
  public static Result run(Path out, InstantSource clock, Progress progress) throws AudioRefused {
    try {
      URI home = home();
      if (home.getScheme().equals("jar")) {
        try (FileSystem jar = FileSystems.newFileSystem(home, Map.of())) {
          return new Demo(jar.getPath("/tallyback/demo-data")).run(clock, out, progress);
        }
      }
      return new Demo(Path.of(home)).run(clock, out, progress);
    } catch (AudioRefused e) {
      throw e;
    } catch (IOException e) {
      throw new MachineFailed("the demo can't go on (" + e.getMessage() + "); check the disk", e);
    }
  }

  private static URI home() {
    URL manifest = Demo.class.getResource("/tallyback/demo-data/manifest.json");
    if (manifest == null) {
      throw new IllegalStateException("the jar lacks its demo data: build it again");
    }
    String text = manifest.toString();
    return URI.create(text.substring(0, text.lastIndexOf('/') + 1));
  }

  /** Runs a demo that lies in another folder, with its own recordings. */
  public static Result run(Path folder, Path out, InstantSource clock, Progress progress)
      throws IOException {
    return new Demo(folder).run(clock, out, progress);
  }

  private Result run(InstantSource clock, Path out, Progress progress) throws IOException {
    makeFolder(out);
    Path data = out.resolve("demo.tallyback");
    removeOld(data);
    JsonNode manifest = JSON.readTree(Files.readString(folder.resolve("manifest.json")));
    String planText = Files.readString(folder.resolve("plan.yaml"), StandardCharsets.UTF_8);
    LoadedPlan plan = LoadedPlan.of("plan.yaml", planText);
    ZoneId zone = ZoneId.of(manifest.get("zone").asText());
    Tally tally = new Tally();
    CheckedJob checked;
    Instant opened = at(manifest.get("clips").get(0)).minusSeconds(10);
    JobDesk.Setting setting = new JobDesk.Setting("demo", "mechanic", zone, clock);
    List<Recording> recordings = recordings(manifest.get("clips"));
    try (JobDesk desk = JobDesk.open(data, plan, "demo", opened, setting);
        HearAhead ahead = HearAhead.start(plan, recordings);
        Ear ear = Ear.open(plan, null)) {
      RecordedSound sound = new RecordedSound(desk, ear);
      for (Recording recording : recordings) {
        List<RecordedSound.Told> told = new ArrayList<>();
        sound.take(recording.file(), recording.at(), ahead.next(), told::add);
        told.forEach(tally::add);
        progress.heard(
            recording.number(),
            recordings.size(),
            told.isEmpty() ? null : told.get(told.size() - 1));
      }
      sound.finish();
      checked = CheckedJob.of(desk.job(), plan.plan(), desk.entries());
    }
    Path page = out.resolve("record.html");
    RecordFile.write(page, checked.record(clock.instant(), tally.heard()));
    return new Result(checked, tally.heard(), data, page, differences(checked, tally.heard()));
  }

  private static void makeFolder(Path out) {
    try {
      Files.createDirectories(out);
    } catch (IOException e) {
      throw new MachineFailed(
          out + ": this folder can't be made; name another with --out, or go to one you may write",
          e);
    }
  }

  private static void removeOld(Path data) throws IOException {
    for (String ending : List.of("", "-wal", "-shm", ".writer")) {
      Files.deleteIfExists(data.resolveSibling(data.getFileName() + ending));
    }
  }

  /** One recording of the demo, its number from 1. */
  record Recording(int number, Path file, Instant at) {}

  private List<Recording> recordings(JsonNode clips) {
    List<Recording> recordings = new ArrayList<>();
    for (int i = 0; i < clips.size(); i++) {
      JsonNode clip = clips.get(i);
      recordings.add(new Recording(i + 1, folder.resolve(clip.get("file").asText()), at(clip)));
    }
    return recordings;
  }

  private static Instant at(JsonNode clip) {
    return OffsetDateTime.parse(clip.get("at").asText()).toInstant();
  }

  /** Counts what was heard. */
  private static final class Tally {
    private int utterances;
    private int noted;
    private int asked;
    private int rejected;
    private long speechMs;

    void add(RecordedSound.Told told) {
      utterances++;
      speechMs += told.endMs() - told.startMs();
      Reply.Status status = told.reply().status();
      noted += status == Reply.Status.NOTED ? 1 : 0;
      asked += status == Reply.Status.ASKED ? 1 : 0;
      boolean noEntry = status == Reply.Status.REJECTED || status == Reply.Status.ANSWERED;
      rejected += noEntry ? 1 : 0;
    }

    JobRecord.Heard heard() {
      return new JobRecord.Heard(utterances, noted, asked, rejected, Duration.ofMillis(speechMs));
    }
  }

  private List<String> differences(CheckedJob checked, JobRecord.Heard heard) throws IOException {
    JsonNode expected = JSON.readTree(Files.readString(folder.resolve("expected.json")));
    JsonNode found = JSON.readTree(JSON.writeValueAsString(outcome(checked, heard)));
    List<String> lines = new ArrayList<>();
    compare("", expected, found, lines);
    return lines;
  }

  private static void compare(String where, JsonNode expected, JsonNode found, List<String> lines) {
    if (expected.equals(found)) {
      return;
    }
    boolean inside =
        expected.isContainerNode()
            && expected.getNodeType() == found.getNodeType()
            && expected.size() == found.size();
    if (!inside) {
      lines.add(where + ": expected " + expected + ", found " + found);
      return;
    }
    if (expected.isArray()) {
      for (int i = 0; i < expected.size(); i++) {
        compare(where + "[" + i + "]", expected.get(i), found.get(i), lines);
      }
      return;
    }
    expected
        .fieldNames()
        .forEachRemaining(
            name -> compare(where + "." + name, expected.get(name), found.path(name), lines));
  }

  /** What is compared: verdict, findings, and how many utterances met which end. */
  public static ObjectNode outcome(CheckedJob checked, JobRecord.Heard heard) {
    ObjectNode json = JSON.createObjectNode();
    json.put("schema", 1);
    Verdict verdict = checked.outcome().verdict();
    ObjectNode stages = json.putObject("verdict");
    stages.put("startForTest", word(verdict.startForTest()));
    stages.put("work", word(verdict.work()));
    stages.put("handOver", word(verdict.handOver()));
    ObjectNode counts = json.putObject("heard");
    counts.put("utterances", heard.utterances());
    counts.put("noted", heard.noted());
    counts.put("asked", heard.asked());
    counts.put("rejected", heard.rejected());
    counts.put("entries", checked.entries().size());
    ArrayNode unconfirmed = json.putArray("unconfirmed");
    for (Entry entry : checked.entries()) {
      if (entry.certainty() == Certainty.UNCONFIRMED) {
        unconfirmed.add(entry.words());
      }
    }
    findings(json.putArray("findings"), checked.outcome().findings());
    return json;
  }

  private static void findings(ArrayNode array, List<Finding> findings) {
    for (Finding finding : findings) {
      ObjectNode json = array.addObject();
      json.put("kind", finding.kind());
      json.put("weight", word(finding.weight()));
      json.put("subject", finding.subject());
      json.put("expected", finding.expected());
      json.put("found", finding.found());
      if (finding.difference() != null) {
        json.put("difference", finding.difference());
      }
      if (!finding.followers().isEmpty()) {
        findings(json.putArray("followers"), finding.followers());
      }
    }
  }

  private static String word(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT);
  }
}
