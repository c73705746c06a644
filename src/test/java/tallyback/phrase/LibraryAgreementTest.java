package tallyback.phrase;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import edu.cmu.sphinx.jsgf.JSGFGrammar;
import edu.cmu.sphinx.linguist.acoustic.Unit;
import edu.cmu.sphinx.linguist.dictionary.Dictionary;
import edu.cmu.sphinx.linguist.dictionary.Pronunciation;
import edu.cmu.sphinx.linguist.dictionary.Word;
import edu.cmu.sphinx.linguist.language.grammar.GrammarArc;
import edu.cmu.sphinx.linguist.language.grammar.GrammarNode;
import edu.cmu.sphinx.util.props.PropertySheet;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Checked from outside: the JSGF parser and grammar builder of the recogniser library (Sphinx4,
 * {@code edu.cmu.sphinx.jsgf.JSGFGrammar}) read the same text, and its graph accepts the same
 * phrases as ours.
 */
class LibraryAgreementTest {

  @TempDir Path folder;

  private static final String SHED =
      """
      #JSGF V1.0;
      /** Written by hand, with every construct of the format that both read. */
      grammar shed;

      public <entry> = <drained> | <moved> | /* none */ <counted>;
      <drained> = (drained | let out) {out} <volume> [from [the] <place>] {end};
      <volume> = <NULL> {n<} <digit> [point <digit>+] {>} (litre | litres) {L} | half a litre {half};
      <digit> = /10/ one | /2.5/ two | /0.5/ three; // weighed
      <place> = block plug {place:block} | radiator {place:radiator} | <elsewhere>;
      <elsewhere> = <VOID>;
      <moved> = [the] ("splash" guard {guard} | air box {box}) (off {off} | back on {on});
      <counted> = <digit>* bolts {bolts} [[all] tens {ten} | thirteens {thirteen}];
      """;

  @Test
  void writtenGrammarAcceptsTheSame() throws IOException {
    CompiledGrammar ours = CompiledGrammar.compile(List.of(JsgfReader.read("shed", SHED)), "entry");
    compare(ours, libraryGraph("shed", SHED), new Random(7), 600);
  }

  @Test
  void exportedGrammarAcceptsTheSame() throws IOException {
    CompiledGrammar ours = CompiledGrammar.compile(List.of(JsgfReader.read("shed", SHED)), "entry");
    compare(ours, libraryGraph("tallyback", ours.toJsgf()), new Random(8), 600);
  }

  @Test
  void randomGrammarsAcceptTheSame() throws IOException {
    for (int seed = 1001; seed <= 1060; seed++) {
      // The library takes every public rule as a beginning, so only the first stays public.
      String text =
          RandomGrammar.text(new Random(seed))
              .replace("public <r", "<r")
              .replace("<r0> =", "public <r0> =");
      CompiledGrammar ours =
          CompiledGrammar.compile(List.of(JsgfReader.read("random", text)), "r0");
      try {
        compare(ours, libraryGraph("random", text), new Random(seed), 60);
      } catch (AssertionError failed) {
        throw new AssertionError("seed " + seed + "\n" + text, failed);
      }
    }
  }

  private static void compare(
      CompiledGrammar ours, GrammarNode library, Random random, int phrases) {
    PhraseMaker maker = new PhraseMaker(ours, random);
    List<List<String>> made = new ArrayList<>();
    for (int i = 0; i < phrases; i++) {
      made.add(maker.next());
    }
    made.addAll(maker.restOfCoverage());
    List<String> words = List.copyOf(ours.graph().words());
    int refused = 0;
    for (List<String> phrase : made) {
      assertTrue(accepts(library, phrase), "the library refuses " + phrase);
      List<String> changed = mutated(phrase, words, random);
      assertEquals(accepts(library, changed), !ours.parse(changed).isEmpty(), changed.toString());
      refused += ours.parse(changed).isEmpty() ? 1 : 0;
    }
    assertTrue(
        phrases < 600 || refused > phrases / 4,
        "only " + refused + " changed phrases are no phrases");
  }

  private static List<String> mutated(List<String> phrase, List<String> words, Random random) {
    List<String> changed = new ArrayList<>(phrase);
    int at = random.nextInt(changed.size() + 1);
    String word = words.get(random.nextInt(words.size()));
    switch (random.nextInt(3)) {
      case 0 -> changed.add(at, word);
      case 1 -> {
        if (at < changed.size()) {
          changed.set(at, word);
        }
      }
      default -> {
        if (at < changed.size()) {
          changed.remove(at);
        }
      }
    }
    return changed;
  }

  private GrammarNode libraryGraph(String name, String text) throws IOException {
    Files.writeString(folder.resolve(name + ".gram"), text);
    JSGFGrammar grammar =
        new JSGFGrammar(folder.toUri().toURL(), name, false, false, false, false, new AllWords());
    grammar.allocate();
    return grammar.getInitialNode();
  }

  private static boolean accepts(GrammarNode start, List<String> phrase) {
    Set<GrammarNode> here = closure(Set.of(start));
    for (String word : phrase) {
      Set<GrammarNode> next = new LinkedHashSet<>();
      for (GrammarNode node : here) {
        if (!saysNothing(node) && node.getWord().getSpelling().equals(word)) {
          successors(node, next);
        }
      }
      here = closure(next);
    }
    return here.stream().anyMatch(GrammarNode::isFinalNode);
  }

  /**
   * The nodes that stand at the next word: those with words, and all that are reached through empty
   * ones.
   */
  private static Set<GrammarNode> closure(Set<GrammarNode> nodes) {
    Set<GrammarNode> all = new LinkedHashSet<>(nodes);
    ArrayDeque<GrammarNode> open = new ArrayDeque<>(nodes);
    while (!open.isEmpty()) {
      GrammarNode node = open.remove();
      if (saysNothing(node)) {
        Set<GrammarNode> next = new LinkedHashSet<>();
        successors(node, next);
        next.stream().filter(all::add).forEach(open::add);
      }
    }
    return all;
  }

  /** The library puts a silence before and after all phrases. */
  private static boolean saysNothing(GrammarNode node) {
    return node.isEmpty() || node.getWord().getSpelling().equals("<sil>");
  }

  private static void successors(GrammarNode node, Set<GrammarNode> into) {
    for (GrammarArc arc : node.getSuccessors()) {
      into.add(arc.getGrammarNode());
    }
  }

  /** A dictionary that has every word, so that the library drops none. */
  private static final class AllWords implements Dictionary {
    private final Map<String, Word> words = new HashMap<>();

    @Override
    public Word getWord(String text) {
      return words.computeIfAbsent(text, AllWords::word);
    }

    private static Word word(String text) {
      return new Word(text, new Pronunciation[] {new Pronunciation(new Unit[0], "", 1)}, false);
    }

    @Override
    public Word getSentenceStartWord() {
      return getWord("<s>");
    }

    @Override
    public Word getSentenceEndWord() {
      return getWord("</s>");
    }

    @Override
    public Word getSilenceWord() {
      return getWord("<sil>");
    }

    @Override
    public Word[] getFillerWords() {
      return new Word[0];
    }

    @Override
    public void allocate() {}

    @Override
    public void deallocate() {}

    @Override
    public void newProperties(PropertySheet sheet) {}
  }
}
