package tallyback.bench;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.function.ToLongFunction;
import tallyback.app.JobHistory;
import tallyback.log.JobSearch;
import tallyback.log.LogReader;
import tallyback.log.sqlite.BulkFile;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.report.JobsSheet;

/**
 * How long it takes to list, search, compare and chart among 5,000 jobs with 500,000 entries: the
 * first call after opening the file, then the median and the longest of the next.
 */
public final class ManyJobs {

  private static final int ROUNDS = 21;

  private ManyJobs() {}

  /** Prints one line per question. Arguments: jobs, entries a job, and a file to keep. */
  public static void main(String[] arguments) throws Exception {
    int jobs = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 5_000;
    int entries = arguments.length > 1 ? Integer.parseInt(arguments[1]) : 100;
    Path folder = Files.createTempDirectory("many-jobs");
    Path file = arguments.length > 2 ? Path.of(arguments[2]) : folder.resolve("many.tallyback");
    if (!Files.exists(file)) {
      long start = System.nanoTime();
      BulkFile.write(file, new InventedJobs(jobs, 250, entries).all());
      System.out.printf(
          Locale.ROOT,
          "written in %.1f s, %d MB%n",
          (System.nanoTime() - start) / 1e9,
          Files.size(file) >> 20);
      start = System.nanoTime();
      BulkFile.index(file, (done, all) -> {});
      System.out.printf(
          Locale.ROOT,
          "index made in %.1f s, now %d MB%n",
          (System.nanoTime() - start) / 1e9,
          Files.size(file) >> 20);
    }
    ask("list, first page", file, log -> log.find(JobSearch.ALL).all());
    ask("a rare word", file, words(InventedJobs.RARE));
    ask("a common word", file, words("torqued"));
    ask("the beginning of one, a letter", file, words("t"));
    ask("the beginning of one, four letters", file, words("spla"));
    ask("two words", file, words("splash torqued"));
    ask("a word and a machine", file, words("rook torqued"));
    ask("a serial number and a word", file, words("SN-1007 outlet"));
    ask("no hit", file, words("zzyzx"));
    ask("by machine", file, log -> log.find(JobSearch.ALL.withMachine("ostrander 1007")).all());
    ask("summaries of all", file, log -> log.jobs().size());
    ask(
        "worked and found, of a page",
        file,
        log ->
            log.find(JobSearch.ALL).jobs().stream()
                .filter(each -> JobHistory.figures(log, each.job()).isPresent())
                .count());
    ask(
        "two jobs compared",
        file,
        log ->
            JobsSheet.of(JobHistory.compare(file, "job-1", "job-251"), JobsSheet.NO_LINKS)
                .page()
                .length());
    ask(
        "a machine of 20 jobs followed",
        file,
        log -> {
          JobHistory.OfMachine found = JobHistory.trends(file, "job-1", "");
          return JobsSheet.of(found.trends(), found.machine(), found.lead(), JobsSheet.NO_LINKS)
              .page()
              .length();
        });
  }

  private static ToLongFunction<LogReader> words(String words) {
    return log -> log.find(JobSearch.ALL.withWords(words)).all();
  }

  private static void ask(String what, Path file, ToLongFunction<LogReader> question) {
    double[] ms = new double[ROUNDS];
    long answer = 0;
    try (LogReader log = SqliteLogs.openForReading(file)) {
      for (int round = 0; round < ROUNDS; round++) {
        long start = System.nanoTime();
        answer = question.applyAsLong(log);
        ms[round] = (System.nanoTime() - start) / 1e6;
      }
    }
    double first = ms[0];
    double[] next = Arrays.copyOfRange(ms, 1, ROUNDS);
    Arrays.sort(next);
    System.out.printf(
        Locale.ROOT,
        "%-36s first %6.1f ms, then median %6.1f, longest %6.1f (%d found)%n",
        what,
        first,
        next[next.length / 2],
        next[next.length - 1],
        answer);
  }
}
