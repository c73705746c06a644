package tallyback.report.pdf;

import java.io.IOException;
import java.nio.file.Path;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;

/** The words of a PDF, page by page. Stateless. */
public final class PaperText {

  private PaperText() {}

  /**
   * Reads them.
   *
   * @throws IOException if it can't be read, or is no PDF
   */
  public static String of(Path file) throws IOException {
    try (PDDocument document = Loader.loadPDF(file.toFile())) {
      return new PDFTextStripper().getText(document);
    }
  }
}
