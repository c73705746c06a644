package tallyback.cli;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import tallyback.app.RecordFile;
import tallyback.report.JobsSheet;

/** Gives a sheet as text, or as a page in a file whose name is printed then. */
final class SheetOutput {

  private SheetOutput() {}

  static void give(Console console, JobsSheet sheet, @Nullable Path file) {
    if (file == null) {
      console.out().print(sheet.text());
    } else {
      RecordFile.writePage(file, sheet.page());
      console.out().println(file.toAbsolutePath());
    }
  }
}
