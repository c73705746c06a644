package tallyback.bench.hearing;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tallyback.audio.Clip;
import tallyback.audio.WavWriter;
import tallyback.phrase.Lexicon;
import tallyback.phrase.WordGraph;

/**
 * Debian's {@code pocketsphinx_batch} with the model of {@code pocketsphinx-en-us}, on a grammar of
 * ours: the same states and arcs, written as a finite state grammar, and the same pronunciations.
 * All its settings are the defaults, its own removal of noise and silence included, but that it
 * takes the mean of the cepstrum over the whole clip, as ours does ({@code -cmn batch}).
 */
final class OtherDecoder {

  private static final String PROGRAM = "pocketsphinx_batch";
  private static final Path MODEL = Path.of("/usr/share/pocketsphinx/model/en-us/en-us");

  /** Its last line of log: what it took without the reading of model, dictionary and grammar. */
  private static final Pattern TOTAL =
      Pattern.compile("TOTAL ([0-9.]+) seconds speech, ([0-9.]+) seconds CPU");

  private static final Pattern VARIANT = Pattern.compile("\\(\\d+\\)$");
  private static final Pattern SCORE = Pattern.compile("\\s*\\(([^()\\s]+) -?\\d+\\)$");

  private final Path folder;

  /** A decoder that keeps its files in a folder of its own. */
  OtherDecoder(Path folder) {
    this.folder = folder;
  }

  /**
   * What it heard.
   *
   * @param words of each clip, in order; none where it found no path
   * @param cpuMs processor time for hearing
   * @param startCpuMs processor time for reading model, dictionary and grammar
   */
  record Batch(List<List<String>> words, double cpuMs, double startCpuMs) {

    Batch {
      words = List.copyOf(words);
    }
  }

  /** Refuses to begin when it isn't there. */
  static void requireInstalled() {
    requireInstalled(System.getenv().getOrDefault("PATH", ""), MODEL);
  }

  static void requireInstalled(String path, Path model) {
    boolean found =
        List.of(path.split(":", -1)).stream()
            .anyMatch(part -> Files.isExecutable(Path.of(part, PROGRAM)));
    if (!found || !Files.isDirectory(model)) {
      throw new IllegalArgumentException(
          "expected "
              + PROGRAM
              + " and its English model, found none; install Debian's packages pocketsphinx and"
              + " pocketsphinx-en-us (apt-get install)");
    }
  }

  /**
   * The grammar as the finite state grammar format of the Sphinx family: numbered states, one end,
   * every arc of probability 1 as in ours.
   */
  static String fsg(WordGraph graph) {
    int end = graph.stateCount();
    StringBuilder text = new StringBuilder("FSG_BEGIN entries\n");
    text.append("NUM_STATES ").append(end + 1).append('\n');
    text.append("START_STATE ").append(graph.start()).append('\n');
    text.append("FINAL_STATE ").append(end).append('\n');
    for (int state = 0; state < end; state++) {
      for (WordGraph.Arc arc : graph.arcs(state)) {
        text.append("TRANSITION %d %d 1.0 %s\n".formatted(state, arc.target(), arc.word()));
      }
      if (graph.isFinal(state)) {
        text.append("TRANSITION %d %d 1.0\n".formatted(state, end));
      }
    }
    return text.append("FSG_END\n").toString();
  }

  /** Only the words of the grammar, in the format of the dictionary. */
  static String dictionary(WordGraph graph, Lexicon lexicon) {
    StringBuilder text = new StringBuilder();
    for (String word : graph.words()) {
      int way = 1;
      for (String phones : lexicon.pronunciations(word)) {
        text.append(word).append(way == 1 ? "" : "(" + way + ")");
        text.append(' ').append(phones).append('\n');
        way++;
      }
    }
    return text.toString();
  }

  /** Hears clips, all in one run. */
  Batch hear(WordGraph graph, Lexicon lexicon, List<Clip> clips)
      throws IOException, InterruptedException {
    Files.createDirectories(folder);
    Files.writeString(folder.resolve("entries.fsg"), fsg(graph));
    Files.writeString(folder.resolve("entries.dict"), dictionary(graph, lexicon));
    List<String> names = new ArrayList<>();
    for (int i = 0; i < clips.size(); i++) {
      names.add("clip%05d".formatted(i));
      WavWriter.write(clips.get(i), folder.resolve(names.get(i) + ".wav"));
    }
    Files.write(folder.resolve("clips.ctl"), names);
    return read(run(), names);
  }

  private String run() throws IOException, InterruptedException {
    Path log = folder.resolve("log.txt");
    Process process =
        new ProcessBuilder("sh", "-c", command())
            .directory(folder.toFile())
            .redirectErrorStream(true)
            .redirectOutput(log.toFile())
            .start();
    int code = process.waitFor();
    String text = Files.readString(log, StandardCharsets.UTF_8);
    if (code != 0) {
      throw new IOException(PROGRAM + " failed with " + code + "; see " + log.toAbsolutePath());
    }
    return text;
  }

  private static String command() {
    return PROGRAM
        + " -hmm "
        + MODEL
        + " -fsg entries.fsg -dict entries.dict -ctl clips.ctl -cepdir . -cepext .wav -adcin yes"
        + " -adchdr 44 -cmn batch -hyp heard.txt && times";
  }

  private Batch read(String log, List<String> names) throws IOException {
    return batch(log, Files.readAllLines(folder.resolve("heard.txt")), names);
  }

  /** Makes sense of its log and of what it heard. */
  static Batch batch(String log, List<String> lines, List<String> names) {
    Map<String, List<String>> heard = new HashMap<>();
    for (String line : lines) {
      Matcher score = SCORE.matcher(line);
      if (score.find()) {
        heard.put(score.group(1), words(line.substring(0, score.start())));
      }
    }
    Matcher total = TOTAL.matcher(log);
    if (!total.find()) {
      throw new IllegalStateException(PROGRAM + ": expected its total in the log, found none");
    }
    double hearingMs = 1000 * Double.parseDouble(total.group(2));
    return new Batch(
        names.stream().map(name -> heard.getOrDefault(name, List.of())).toList(),
        hearingMs,
        Math.max(0, childrenMs(log) - hearingMs));
  }

  private static List<String> words(String text) {
    return List.of(text.strip().split("\\s+", -1)).stream()
        .map(word -> VARIANT.matcher(word).replaceFirst(""))
        .filter(word -> !word.isEmpty() && !word.startsWith("<"))
        .toList();
  }

  /**
   * What {@code times} of the shell says in its last line: user and system time of its children.
   */
  private static double childrenMs(String log) {
    List<String> lines = log.strip().lines().toList();
    double sum = 0;
    for (String time : lines.get(lines.size() - 1).strip().split("\\s+", -1)) {
      int minutes = time.indexOf('m');
      sum +=
          60 * Double.parseDouble(time.substring(0, minutes))
              + Double.parseDouble(time.substring(minutes + 1, time.length() - 1));
    }
    return 1000 * sum;
  }
}
