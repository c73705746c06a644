package tallyback.report.owner;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.TimeZone;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.PDFAValidator;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.TestAssertion;
import org.verapdf.pdfa.results.ValidationResult;
import tallyback.model.Statement.About;
import tallyback.model.Statement.Written;
import tallyback.model.Verdict.Answer;
import tallyback.report.HostileText;
import tallyback.report.JobRecord;
import tallyback.report.OrchardJob;
import tallyback.report.owner.Form.Paper;
import tallyback.report.owner.Form.Picture;
import tallyback.report.owner.Form.Units;

/** The record on paper, looked at by others: veraPDF and PDFBox. */
class OwnerPdfTest {

  /** A picture of one dot. */
  private static final String DOT =
      "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAIAAACQd1PeAAAADElEQVR4nGP4z8AAAAMBAQDJ/pLvAAAAAElFTkSuQmCC";

  private static byte[] pdf(JobRecord job, Paper paper, Units units) {
    return OwnerRecord.pdf(job, new Form(paper, units, List.of()));
  }

  @TestFactory
  Stream<DynamicTest> isWhatItSaysItIs() {
    VeraGreenfieldFoundryProvider.initialise();
    Picture picture = new Picture("data:image/png;base64," + DOT, "a dot");
    JobRecord stopped = OrchardJob.record();
    return Stream.of(
            new Case("stopped, A4", () -> pdf(stopped, Paper.A4, Units.METRIC)),
            new Case("stopped, Letter, US", () -> pdf(stopped, Paper.LETTER, Units.US)),
            new Case(
                "clear",
                () ->
                    pdf(
                        OwnerRecordTest.judged(Answer.CLEAR, List.of("x")),
                        Paper.A4,
                        Units.METRIC)),
            new Case(
                "with a picture",
                () -> OwnerRecord.pdf(stopped, new Form(Paper.A4, Units.METRIC, List.of(picture)))),
            new Case(
                "hostile",
                () ->
                    pdf(
                        OrchardJob.named(
                            "<script> \u6f22\u5b57 \ud83d\udd27 \u05e9\u05dc & \ufffe \u202e"),
                        Paper.A4,
                        Units.METRIC)))
        .flatMap(
            each ->
                Stream.of(PDFAFlavour.PDFA_2_A, PDFAFlavour.PDFUA_1)
                    .map(
                        flavour ->
                            DynamicTest.dynamicTest(
                                each.name() + " " + flavour,
                                () -> assertEquals(List.of(), broken(each.pdf().get(), flavour)))));
  }

  private record Case(String name, Supplier<byte[]> pdf) {}

  /**
   * The judge turns names to lower case by the machine's language: in Turkish it knows no Integer.
   */
  private static List<String> broken(byte[] pdf, PDFAFlavour flavour) throws Exception {
    Locale here = Locale.getDefault();
    Locale.setDefault(Locale.ENGLISH);
    try {
      return brokenInEnglish(pdf, flavour);
    } finally {
      Locale.setDefault(here);
    }
  }

  private static List<String> brokenInEnglish(byte[] pdf, PDFAFlavour flavour) throws Exception {
    try (PDFAParser parser =
            Foundries.defaultInstance().createParser(new ByteArrayInputStream(pdf), flavour);
        PDFAValidator validator =
            Foundries.defaultInstance().createValidator(flavour, 10, false, false, false)) {
      ValidationResult result = validator.validate(parser);
      assertTrue(result.getTotalAssertions() > 1000, "it looked at next to nothing");
      List<String> broken = new ArrayList<>();
      for (TestAssertion each : result.getTestAssertions()) {
        if (each.getStatus() == TestAssertion.Status.FAILED) {
          broken.add(each.getRuleId().getClause() + " " + each.getMessage());
        }
      }
      if (!result.isCompliant() && broken.isEmpty()) {
        broken.add("not compliant");
      }
      return broken;
    }
  }

  /** The judge is no rubber stamp: a document that only claims to be one fails. */
  @Test
  void theJudgeSeesWhatIsMissing() throws Exception {
    VeraGreenfieldFoundryProvider.initialise();
    byte[] pdf = pdf(OrchardJob.record(), Paper.A4, Units.METRIC);
    try (PDDocument document = Loader.loadPDF(pdf)) {
      document.getDocumentCatalog().getCOSObject().removeItem(COSName.OUTPUT_INTENTS);
      document.getDocumentCatalog().getCOSObject().removeItem(COSName.getPDFName("Lang"));
      java.io.ByteArrayOutputStream spoilt = new java.io.ByteArrayOutputStream();
      document.save(spoilt);
      assertFalse(broken(spoilt.toByteArray(), PDFAFlavour.PDFA_2_A).isEmpty());
      assertFalse(broken(spoilt.toByteArray(), PDFAFlavour.PDFUA_1).isEmpty());
    }
  }

  @Test
  void twoPagesAndTheAnnexesBehindThem() throws IOException {
    for (Paper paper : Paper.values()) {
      for (Units units : Units.values()) {
        try (PDDocument document = Loader.loadPDF(pdf(full(), paper, units))) {
          assertTrue(text(document, 3).contains("Annex A: how tight"), paper + " " + units);
          assertTrue(text(document, 2).contains("Signatures"), paper + " " + units);
          int pages = document.getNumberOfPages();
          for (int page = 1; page <= pages; page++) {
            String text = text(document, page);
            assertTrue(text.contains("page " + page + " of " + pages), text);
            assertTrue(text.contains("Do not use this machine"), "sheet " + page);
          }
        }
      }
    }
  }

  /** With everything written down that can be. */
  private static JobRecord full() {
    return OwnerRecordTest.with(
        OrchardJob.record(),
        new Written(About.OWNER, "Ilsabet Fenwright, Hollow Farm"),
        new Written(About.COMPLAINT, "loses coolant, about a litre a week; the belt squeals"),
        new Written(About.ARRIVAL, "mud on the radiator; dent in the left mudguard"),
        new Written(About.CAUSE, "pump bearing worn, so that the shaft seal leaked"),
        new Written(About.EXTRA_WORK, "bypass hose was hard and cracked, renewed as well"),
        new Written(About.AGREED, "by telephone on 2 March, 10:12"),
        new Written(About.ADVICE, "read the level, cold, on each of the next five days of work"),
        new Written(About.OLD_PARTS, "go back to the owner, in a bag on the seat"),
        new Written(About.WASTE, "coolant to the collection point"),
        new Written(About.SIGNED, "Vera Quill"));
  }

  private static String text(PDDocument document, int page) throws IOException {
    PDFTextStripper stripper = new PDFTextStripper();
    stripper.setStartPage(page);
    stripper.setEndPage(page);
    return stripper.getText(document).replace('\u00a0', ' ');
  }

  @Test
  void itSaysWhatItIsAndCarriesItsFont() throws IOException {
    try (PDDocument document =
        Loader.loadPDF(pdf(OrchardJob.record(), Paper.LETTER, Units.METRIC))) {
      PDPage page = document.getPage(0);
      assertEquals(612, page.getMediaBox().getWidth(), 0.5);
      assertEquals(792, page.getMediaBox().getHeight(), 0.5);
      assertEquals("en", document.getDocumentCatalog().getLanguage());
      assertTrue(document.getDocumentInformation().getTitle().contains("Quillfern"));
      assertTrue(document.getDocumentCatalog().getMarkInfo().isMarked());
      assertNotNull(document.getDocumentCatalog().getStructureTreeRoot());
      assertEquals(
          "May it be used?",
          document.getDocumentCatalog().getDocumentOutline().getFirstChild().getTitle());
      int fonts = 0;
      for (COSName name : page.getResources().getFontNames()) {
        PDFont font = page.getResources().getFont(name);
        assertTrue(font.isEmbedded(), font.getName());
        assertTrue(font.getName().contains("OpenSans"), font.getName());
        fonts++;
      }
      assertEquals(2, fonts);
    }
    try (PDDocument document = Loader.loadPDF(pdf(OrchardJob.record(), Paper.A4, Units.METRIC))) {
      assertEquals(595.3, document.getPage(0).getMediaBox().getWidth(), 0.5);
    }
  }

  @Test
  void theSameJobGivesTheSameBytesAnywhere() {
    byte[] here = pdf(OrchardJob.record(), Paper.A4, Units.METRIC);
    Locale locale = Locale.getDefault();
    TimeZone zone = TimeZone.getDefault();
    try {
      Locale.setDefault(Locale.forLanguageTag("ar-EG-u-nu-arab"));
      TimeZone.setDefault(TimeZone.getTimeZone("Pacific/Apia"));
      assertArrayEquals(here, pdf(OrchardJob.record(), Paper.A4, Units.METRIC));
    } finally {
      Locale.setDefault(locale);
      TimeZone.setDefault(zone);
    }
  }

  @Test
  void whatCannotBePrintedIsSeenToBeMissing() throws IOException {
    Written words = new Written(About.OWNER, "\u6f22 \u05d0 \ud83d\udd27 K\u00e4the \u0141 \u03a9");
    try (PDDocument document =
        Loader.loadPDF(
            pdf(OwnerRecordTest.with(OrchardJob.record(), words), Paper.A4, Units.METRIC))) {
      String all = new PDFTextStripper().getText(document);
      assertTrue(all.contains("\u25ca \u25ca \u25ca K\u00e4the \u0141 \u03a9"), all);
      assertTrue(all.contains("\u25ca stands for a letter"), all);
    }
    try (PDDocument document = Loader.loadPDF(pdf(OrchardJob.record(), Paper.A4, Units.METRIC))) {
      assertFalse(new PDFTextStripper().getText(document).contains("\u25ca"));
    }
  }

  @Test
  void noNameBreaksIt() throws IOException {
    long seed = 20260302;
    System.out.println("OwnerPdfTest.noNameBreaksIt seed " + seed);
    Random random = new Random(seed);
    for (int round = 0; round < 12; round++) {
      StringBuilder name = new StringBuilder(HostileText.from(random));
      for (int letter = 0; letter < 40; letter++) {
        name.appendCodePoint(random.nextInt(letter % 2 == 0 ? 0x10000 : 0x110000));
      }
      byte[] pdf = pdf(OrchardJob.named(name.toString()), Paper.A4, Units.METRIC);
      try (PDDocument document = Loader.loadPDF(pdf)) {
        assertTrue(document.getNumberOfPages() > 2, name.toString());
      }
    }
    String endless = "W".repeat(3000);
    try (PDDocument document =
        Loader.loadPDF(pdf(OrchardJob.named(endless), Paper.A4, Units.METRIC))) {
      assertTrue(document.getNumberOfPages() > 2);
    }
  }

  @Test
  void aPictureIsInIt() throws IOException {
    Picture picture = new Picture("data:image/png;base64," + DOT, "the old pump, seal side");
    byte[] pdf =
        OwnerRecord.pdf(OrchardJob.record(), new Form(Paper.A4, Units.METRIC, List.of(picture)));
    assertTrue(Base64.getDecoder().decode(DOT).length > 40);
    try (PDDocument document = Loader.loadPDF(pdf)) {
      assertTrue(new PDFTextStripper().getText(document).contains("the old pump, seal side"));
    }
  }
}
