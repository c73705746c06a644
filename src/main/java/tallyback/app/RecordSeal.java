package tallyback.app;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tallyback.log.Seal;
import tallyback.report.pdf.PaperText;

/** The seal that a record holds, as it was printed. Stateless. */
public final class RecordSeal {

  /** A line may end within it on paper, so blanks are left out on both sides. */
  private static final Pattern PRINTED =
      Pattern.compile("/([1-9][0-9]{0,11})/((?:[0-9a-f]{4}-){5}[0-9a-f]{4})");

  private static final long LARGEST_BYTES = 200L << 20;

  private RecordSeal() {}

  /**
   * Looks for it.
   *
   * @param file a record, HTML or PDF
   * @param jobs the jobs that it may be of
   * @throws WrongUse if there is none in it, or it is no record
   * @throws MachineFailed if it can't be read
   */
  public static Seal in(Path file, List<String> jobs) {
    if (!Files.isRegularFile(file)) {
      throw new WrongUse(file + ": there is no such record; name the file that 'report' wrote");
    }
    String text = text(file).replaceAll("\\s", "");
    Matcher printed = PRINTED.matcher(text);
    if (!printed.find()) {
      throw new WrongUse(
          file
              + ": there is no seal in it: it is no record for an owner, or the job was still open"
              + " when it was made; make one after 'close'");
    }
    String before = text.substring(0, printed.start());
    String job =
        jobs.stream()
            .filter(each -> before.endsWith(each.replaceAll("\\s", "")))
            .max(Comparator.comparingInt(String::length))
            .orElseThrow(
                () ->
                    new WrongUse(
                        file
                            + ": its seal is of a job that isn't in this data file; name another"));
    return new Seal(job, Long.parseLong(printed.group(1)), printed.group(2).replace("-", ""));
  }

  private static String words(String html) {
    return html.replaceAll("(?s)<style>.*?</style>|<[^>]*>", " ")
        .replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&quot;", "\"")
        .replace("&#34;", "\"")
        .replace("&#39;", "'")
        .replace("&#160;", " ")
        .replace("&amp;", "&");
  }

  /** All the words of a record, tags and entities of a page taken out. */
  static String text(Path file) {
    boolean pdf = RecordFile.isPdf(file);
    try {
      if (Files.size(file) > LARGEST_BYTES) {
        throw new WrongUse(file + ": larger than any record; name the file that 'report' wrote");
      }
      return pdf
          ? PaperText.of(file)
          : words(new String(Files.readAllBytes(file), StandardCharsets.UTF_8));
    } catch (IOException e) {
      if (pdf && Files.isReadable(file)) {
        throw new WrongUse(file + ": is no PDF that can be read (" + e.getMessage() + ")");
      }
      throw new MachineFailed(file + ": can't be read (" + e.getMessage() + ")", e);
    }
  }
}
