package tallyback.report.pdf;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PdfBoxRenderer;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.util.XRLog;
import java.awt.color.ColorSpace;
import java.awt.color.ICC_Profile;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.GregorianCalendar;
import java.util.TimeZone;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentInformation;
import org.apache.pdfbox.pdmodel.common.PDMetadata;

/**
 * Turns a page into a tagged PDF that is made to be kept: PDF/A-2a and PDF/UA-1, fonts embedded,
 * colours sRGB, described in XMP. It reaches for nothing: no file, no address. The same page and
 * facts give the same bytes. Any thread may use it.
 */
public final class PaperDocument {

  /** The family that style sheets name. */
  static final String FAMILY = "Record";

  /** Stands for a letter that can't be printed. */
  public static final String UNPRINTED = Glyphs.UNPRINTED;

  private static final String FONTS = "/fonts/ttf/OpenSans/";
  private static final String PRODUCER = "Tallyback";
  private static final int REGULAR = 400;
  private static final int BOLD = 700;

  static {
    // Letters are measured, but nothing is ever shown on a screen.
    if (System.getProperty("java.awt.headless") == null) {
      System.setProperty("java.awt.headless", "true");
    }
    XRLog.setLoggerImpl(new LibraryMessages());
  }

  private PaperDocument() {}

  /**
   * What is said about a document.
   *
   * @param title its title
   * @param subject what is in it
   * @param madeAt when it was made
   * @param zone the time zone of the shop
   */
  public record About(String title, String subject, Instant madeAt, ZoneId zone) {}

  /**
   * The document.
   *
   * @param page a page as well-formed XML, its language given
   * @param about what is said about it
   */
  public static byte[] of(String page, About about) {
    Glyphs glyphs = Glyphs.common();
    PdfRendererBuilder builder = new PdfRendererBuilder();
    builder.withHtmlContent(glyphs.printable(page), null);
    builder.useUriResolver((base, uri) -> uri != null && uri.startsWith("data:") ? uri : null);
    builder.usePdfAConformance(PdfRendererBuilder.PdfAConformance.PDFA_2_A);
    builder.usePdfUaAccessibility(true);
    builder.useColorProfile(ICC_Profile.getInstance(ColorSpace.CS_sRGB).getData());
    builder.useFont(() -> font("OpenSans-Regular.ttf"), FAMILY, REGULAR, FontStyle.NORMAL, true);
    builder.useFont(() -> font("OpenSans-Bold.ttf"), FAMILY, BOLD, FontStyle.NORMAL, true);
    builder.withProducer(PRODUCER);
    builder.useUnicodeLineBreaker(new LineEnds());
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    builder.toStream(bytes);
    try (PdfBoxRenderer renderer = builder.buildPdfRenderer();
        PDDocument document = renderer.createPDFKeepOpen()) {
      describe(document, glyphs.printable(about.title()), about);
      document.save(bytes);
      return bytes.toByteArray();
    } catch (IOException inMemory) {
      throw new UncheckedIOException(inMemory);
    }
  }

  /** Whether all letters of a text can be printed; {@link #UNPRINTED} stands for one that can't. */
  public static boolean canPrint(String text) {
    return Glyphs.common().canPrint(text);
  }

  static InputStream font(String name) {
    InputStream font = PaperDocument.class.getResourceAsStream(FONTS + name);
    if (font == null) {
      throw new IllegalStateException(name + " is missing from the jar");
    }
    return font;
  }

  /** Date and identity come from the facts and not from the machine, in both places alike. */
  private static void describe(PDDocument document, String title, About about) throws IOException {
    ZonedDateTime madeAt = about.madeAt().atZone(about.zone()).withNano(0);
    GregorianCalendar calendar =
        GregorianCalendar.from(madeAt.withZoneSameInstant(madeAt.getOffset()));
    calendar.setTimeZone(TimeZone.getTimeZone(madeAt.getOffset()));
    PDDocumentInformation information = new PDDocumentInformation();
    information.setTitle(title);
    information.setSubject(about.subject());
    information.setProducer(PRODUCER);
    information.setCreator(PRODUCER);
    information.setCreationDate(calendar);
    information.setModificationDate(calendar);
    document.setDocumentInformation(information);
    document.setDocumentId(about.madeAt().toEpochMilli());
    PDMetadata metadata = new PDMetadata(document);
    metadata.importXMPMetadata(
        xmp(title, about.subject(), DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(madeAt))
            .getBytes(StandardCharsets.UTF_8));
    document.getDocumentCatalog().setMetadata(metadata);
  }

  private static String xmp(String title, String subject, String time) {
    return """
    <?xpacket begin="\uFEFF" id="W5M0MpCehiHzreSzNTczkc9d"?>
    <x:xmpmeta xmlns:x="adobe:ns:meta/">
    <rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
    <rdf:Description rdf:about=""
      xmlns:dc="http://purl.org/dc/elements/1.1/"
      xmlns:pdf="http://ns.adobe.com/pdf/1.3/"
      xmlns:xmp="http://ns.adobe.com/xap/1.0/"
      xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/"
      xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/"
      xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/"
      xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#"
      xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#">
    <dc:format>application/pdf</dc:format>
    <dc:language><rdf:Bag><rdf:li>en</rdf:li></rdf:Bag></dc:language>
    <dc:title><rdf:Alt><rdf:li xml:lang="x-default">TITLE</rdf:li></rdf:Alt></dc:title>
    <dc:description><rdf:Alt><rdf:li xml:lang="x-default">SUBJECT</rdf:li></rdf:Alt></dc:description>
    <pdf:Producer>PRODUCER</pdf:Producer>
    <xmp:CreatorTool>PRODUCER</xmp:CreatorTool>
    <xmp:CreateDate>TIME</xmp:CreateDate>
    <xmp:ModifyDate>TIME</xmp:ModifyDate>
    <pdfaid:part>2</pdfaid:part>
    <pdfaid:conformance>A</pdfaid:conformance>
    <pdfuaid:part>1</pdfuaid:part>
    <pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType="Resource">
      <pdfaSchema:schema>PDF/UA Universal Accessibility Schema</pdfaSchema:schema>
      <pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>
      <pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>
      <pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType="Resource">
        <pdfaProperty:name>part</pdfaProperty:name>
        <pdfaProperty:valueType>Integer</pdfaProperty:valueType>
        <pdfaProperty:category>internal</pdfaProperty:category>
        <pdfaProperty:description>Which part of ISO 14289 is followed</pdfaProperty:description>
      </rdf:li></rdf:Seq></pdfaSchema:property>
    </rdf:li></rdf:Bag></pdfaExtension:schemas>
    </rdf:Description>
    </rdf:RDF>
    </x:xmpmeta>
    <?xpacket end="w"?>
    """
        .replace("PRODUCER", PRODUCER)
        .replace("TIME", time)
        .replace("SUBJECT", escaped(subject))
        .replace("TITLE", escaped(title));
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
  }
}
