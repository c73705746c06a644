package tallyback.app;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import tallyback.report.HtmlRecord;
import tallyback.report.HtmlTag;
import tallyback.report.HtmlTimeline;
import tallyback.report.JobRecord;
import tallyback.report.owner.Form;
import tallyback.report.owner.OwnerRecord;

/** Writes the record of a job to a file: all of it or nothing. */
public final class RecordFile {

  private RecordFile() {}

  /**
   * Checks the ending before any work is done.
   *
   * @throws WrongUse if there is no record of that form
   */
  public static void requireKnownEnding(Path file) {
    String name = file.toString().toLowerCase(Locale.ROOT);
    if (!name.endsWith(".html") && !name.endsWith(".htm")) {
      throw new WrongUse(
          file + ": expected a name that ends in .html, found another ending; give it that one");
    }
  }

  /**
   * Whether the owner's record is wanted on paper.
   *
   * @throws WrongUse if there is no record of that form
   */
  public static boolean isPdf(Path file) {
    String name = file.toString().toLowerCase(Locale.ROOT);
    if (name.endsWith(".pdf")) {
      return true;
    }
    if (!name.endsWith(".html") && !name.endsWith(".htm")) {
      throw new WrongUse(
          file
              + ": expected a name that ends in .html or .pdf, found another ending; give it one of"
              + " those");
    }
    return false;
  }

  /**
   * Writes the record for the owner of the machine, likewise: as PDF or as a page, by the ending.
   *
   * @param form the form he wants
   * @throws MachineFailed if it can't be written
   */
  public static void writeOwner(Path file, JobRecord record, Form form) {
    write(
        file,
        isPdf(file)
            ? OwnerRecord.pdf(record, form)
            : OwnerRecord.html(record, form).getBytes(StandardCharsets.UTF_8));
  }

  /**
   * Writes the tag for a machine that is left half open, likewise.
   *
   * @throws MachineFailed if it can't be written
   */
  public static void writeTag(Path file, JobRecord record) {
    requireKnownEnding(file);
    write(file, HtmlTag.page(record));
  }

  /**
   * Writes the timeline with everything in it, likewise.
   *
   * @param silent why a sound is not among those of the record, by its hash
   * @throws MachineFailed if it can't be written
   */
  public static void writeTimeline(Path file, JobRecord record, Map<String, String> silent) {
    requireKnownEnding(file);
    write(file, HtmlTimeline.page(record, silent));
  }

  /**
   * Writes the record beside its place first and moves it there when it is whole.
   *
   * @throws MachineFailed if it can't be written
   */
  public static void write(Path file, JobRecord record) {
    requireKnownEnding(file);
    write(file, HtmlRecord.page(record));
  }

  /**
   * Writes a page likewise.
   *
   * @param page HTML
   * @throws MachineFailed if it can't be written
   */
  public static void writePage(Path file, String page) {
    requireKnownEnding(file);
    write(file, page);
  }

  private static void write(Path file, String page) {
    write(file, page.getBytes(StandardCharsets.UTF_8));
  }

  private static void write(Path file, byte[] page) {
    Path target = file.toAbsolutePath();
    Path folder = target.getParent();
    if (folder == null || !Files.isDirectory(folder)) {
      throw new WrongUse(file + ": its folder doesn't exist; make it or name another");
    }
    try {
      WholeFile.write(target, page);
    } catch (IOException e) {
      throw new MachineFailed(
          file + ": can't be written (" + e.getMessage() + "); check the folder and its free space",
          e);
    }
  }
}
