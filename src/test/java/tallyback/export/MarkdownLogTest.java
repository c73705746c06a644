package tallyback.export;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.commonmark.ext.gfm.tables.TableCell;
import org.commonmark.ext.gfm.tables.TablesExtension;
import org.commonmark.node.AbstractVisitor;
import org.commonmark.node.Code;
import org.commonmark.node.CustomNode;
import org.commonmark.node.Heading;
import org.commonmark.node.HtmlBlock;
import org.commonmark.node.HtmlInline;
import org.commonmark.node.Image;
import org.commonmark.node.Link;
import org.commonmark.node.Node;
import org.commonmark.node.Text;
import org.commonmark.parser.Parser;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tallyback.model.Statement;
import tallyback.report.HostileText;
import tallyback.report.JobRecord;
import tallyback.report.JobWords;
import tallyback.report.OrchardJob;

/** The log to read as an independent reader (commonmark-java) reads it. */
class MarkdownLogTest {

  private static final long SEED = 31;

  private static final Parser PARSER =
      Parser.builder().extensions(List.of(TablesExtension.create())).build();

  /** What is in a document. */
  private static final class Seen extends AbstractVisitor {
    private int headings;
    private final List<String> cells = new ArrayList<>();
    private final Set<String> alive = new HashSet<>();

    static Seen in(String markdown) {
      Seen seen = new Seen();
      PARSER.parse(markdown).accept(seen);
      return seen;
    }

    @Override
    public void visit(Heading heading) {
      headings++;
      visitChildren(heading);
    }

    @Override
    public void visit(CustomNode node) {
      if (node instanceof TableCell) {
        cells.add(text(node));
      }
      visitChildren(node);
    }

    @Override
    public void visit(HtmlBlock html) {
      alive.add(html.getLiteral());
    }

    @Override
    public void visit(HtmlInline html) {
      alive.add(html.getLiteral());
    }

    @Override
    public void visit(Link link) {
      alive.add(link.getDestination());
      visitChildren(link);
    }

    @Override
    public void visit(Image image) {
      alive.add(image.getDestination());
    }

    @Override
    public void visit(Code code) {
      alive.add(code.getLiteral());
    }

    private static String text(Node node) {
      StringBuilder text = new StringBuilder();
      for (Node child = node.getFirstChild(); child != null; child = child.getNext()) {
        text.append(child instanceof Text words ? words.getLiteral() : text(child));
      }
      return text.toString();
    }
  }

  @Test
  void theJobIsThereWithVerdictFindingsAndEveryEntry() {
    JobRecord job = OrchardJob.record();
    Seen seen = Seen.in(Export.markdown(job).text());
    assertEquals(Set.of(), seen.alive);
    for (JobWords.Verdict stage : JobWords.of(job).verdict()) {
      assertTrue(seen.cells.contains(stage.question()));
      assertTrue(seen.cells.contains(stage.reason()), stage.reason());
    }
    job.entries().forEach(entry -> assertTrue(seen.cells.contains(entry.words()), entry.words()));
    assertEquals(5 + job.outcome().findings().size(), seen.headings);
  }

  @Test
  void whatIsToBeLookedAtAgainHasItsDay() {
    JobRecord job =
        new Told().at(0, new Statement.LookAgain(2, Statement.Span.WEEKS, null, true)).record();
    Seen seen = Seen.in(Export.markdown(job).text());
    int day = seen.cells.indexOf("Monday 16 March 2026");
    assertTrue(day >= 0, seen.cells::toString);
    assertEquals("level: look again in 2 weeks", seen.cells.get(day + 1));
  }

  @Test
  void hostileNamesStayText() {
    Random random = new Random(SEED);
    int headings = Seen.in(Export.markdown(OrchardJob.record()).text()).headings;
    for (int round = 0; round < 200; round++) {
      String hostile =
          HostileText.from(random) + " | # *b* [l](http://x.y) www.x.y a@b.de ~~s~~ `c`";
      Seen seen = Seen.in(Export.markdown(OrchardJob.named(hostile)).text());
      assertEquals(Set.of(), seen.alive, hostile);
      assertEquals(headings, seen.headings, hostile);
      String shown =
          JobWords.harmless(hostile.replaceAll("[\\r\\n\\t\\u0085\\u2028\\u2029]+", " ")).strip();
      assertTrue(seen.cells.contains(shown), () -> "seed " + SEED + ": " + seen.cells);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"1. x", "1) x", "- x", "+ x", "* x", "# x", "> x", "4.20 L", ": x", "=="})
  void aTextIsNoListAndNoHeading(String text) {
    Node document = PARSER.parse(MarkdownLog.escaped(text));
    Node first = document.getFirstChild();
    assertTrue(first instanceof org.commonmark.node.Paragraph, text);
    assertEquals(text, Seen.text(first));
  }
}
