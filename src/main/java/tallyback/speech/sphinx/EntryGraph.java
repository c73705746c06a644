package tallyback.speech.sphinx;

import edu.cmu.sphinx.linguist.SearchGraph;
import edu.cmu.sphinx.linguist.SearchState;
import edu.cmu.sphinx.linguist.SearchStateArc;
import edu.cmu.sphinx.linguist.acoustic.HMM;
import edu.cmu.sphinx.linguist.acoustic.HMMPosition;
import edu.cmu.sphinx.linguist.acoustic.Unit;
import edu.cmu.sphinx.linguist.acoustic.tiedstate.SenoneHMM;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tallyback.phrase.WordGraph;

/**
 * The search graph over a {@link WordGraph}: at each state of the grammar the words that may follow
 * form one tree of phones (words that begin alike are searched once until they part), each phone
 * modelled between its neighbours, across words too, with an optional pause before, between and
 * after words.
 *
 * <p>States are made when the search first reaches them and then kept, so opening costs nothing and
 * a small constrained graph is cheap to make. The library's own graph builders expand everything at
 * the start or keep tables of all possible phone triples per graph; both took seconds. A day's talk
 * reaches ever more of a large grammar: {@link #shrink} forgets it all, to be made anew.
 *
 * <p>Phone trees with fan-out over the next word's first phone: X. Huang, A. Acero, H.-W. Hon,
 * <cite>Spoken Language Processing</cite>, 2001, section 13.1.
 *
 * <p>Thread rule: belongs to its recogniser's owner.
 */
final class EntryGraph implements SearchGraph {

  private final WordGraph grammar;
  private final Pronouncer pronouncer;
  private final PhoneModels models;
  private final WordPrice wordPrice;
  private final float silenceInsertion;
  private final Map<Integer, PhoneTree> trees = new HashMap<>();
  private final Map<Integer, Segment> pauses = new HashMap<>();
  private final End end = new End();
  private final Start start = new Start();
  private int segments;

  /**
   * Prepares the graph.
   *
   * @param wordPrice price of a word, in the library's log base
   * @param silenceInsertion price of a pause, in the library's log base
   */
  EntryGraph(
      WordGraph grammar,
      Pronouncer pronouncer,
      PhoneModels models,
      WordPrice wordPrice,
      float silenceInsertion) {
    this.grammar = grammar;
    this.pronouncer = pronouncer;
    this.models = models;
    this.wordPrice = wordPrice;
    this.silenceInsertion = silenceInsertion;
  }

  @Override
  public SearchState getInitialState() {
    return start;
  }

  @Override
  public int getNumStateOrder() {
    return 1;
  }

  @Override
  public boolean getWordTokenFirst() {
    return false;
  }

  /**
   * Forgets what it has made if that is more than so many phones in their surroundings, about a
   * kilobyte each. Not while a search is under way.
   */
  void shrink(int mostSegments) {
    if (segments > mostSegments) {
      segments = 0;
      trees.clear();
      pauses.clear();
      start.successors = null;
    }
  }

  /** How many phones in their surroundings it has made. */
  int segments() {
    return segments;
  }

  private PhoneTree tree(int grammarState) {
    PhoneTree known = trees.get(grammarState);
    if (known == null) {
      known = PhoneTree.of(grammar.arcs(grammarState), pronouncer);
      trees.put(grammarState, known);
    }
    return known;
  }

  /** A pause at a state of the grammar, after which a word or the end may follow. */
  private Segment pause(int grammarState) {
    Segment known = pauses.get(grammarState);
    if (known == null) {
      segments++;
      known =
          new Segment(
              models.silenceModel(),
              true,
              models.mixtures(),
              () -> wordsAndEnd(grammarState, models.silence()));
      pauses.put(grammarState, known);
    }
    return known;
  }

  private List<SearchStateArc> wordsAndEnd(int grammarState, Unit left) {
    List<SearchStateArc> arcs = new ArrayList<>();
    for (PhoneTree branch : tree(grammarState).branches()) {
      enter(branch, left, arcs);
    }
    if (grammar.isFinal(grammarState)) {
      arcs.add(new SearchPoint.Step(end, 0));
    }
    return arcs;
  }

  /** Adds the ways into a first phone of words at a state of the grammar. */
  private void enter(PhoneTree branch, Unit left, List<SearchStateArc> arcs) {
    for (Segment segment : branch.segments(left, unused -> segmentsOf(branch, left, true))) {
      arcs.add(new SearchPoint.WordStep(segment.first(), wordPrice));
    }
  }

  /**
   * The models of one phone of a tree. What follows decides how it sounds, but many followers share
   * one model: they are grouped, so that each distinct model is searched once.
   */
  private List<Segment> segmentsOf(PhoneTree node, Unit left, boolean first) {
    List<Segment> segments = new ArrayList<>();
    Map<Object, List<PhoneTree>> inner = new LinkedHashMap<>();
    Map<Object, HMM> hmms = new HashMap<>();
    for (PhoneTree next : node.branches()) {
      HMM hmm =
          models.triphone(
              node.phone(), left, next.phone(), first ? HMMPosition.BEGIN : HMMPosition.INTERNAL);
      inner.computeIfAbsent(sound(hmm), unused -> new ArrayList<>()).add(next);
      hmms.putIfAbsent(sound(hmm), hmm);
    }
    inner.forEach(
        (sound, nexts) ->
            segments.add(
                new Segment(
                    hmm(hmms, sound),
                    false,
                    models.mixtures(),
                    () -> innerArcs(nexts, node.phone()))));
    for (WordGraph.Arc word : node.endings()) {
      addEndings(node, left, first, word, segments);
    }
    this.segments += segments.size();
    return segments;
  }

  private void addEndings(
      PhoneTree node, Unit left, boolean first, WordGraph.Arc word, List<Segment> segments) {
    Map<Object, Set<Unit>> rightsOfSound = new LinkedHashMap<>();
    Map<Object, HMM> hmms = new HashMap<>();
    Set<Unit> rights = new LinkedHashSet<>();
    rights.add(models.silence());
    tree(word.target()).branches().forEach(branch -> rights.add(branch.phone()));
    for (Unit right : rights) {
      HMM hmm =
          models.triphone(node.phone(), left, right, first ? HMMPosition.SINGLE : HMMPosition.END);
      rightsOfSound.computeIfAbsent(sound(hmm), unused -> new LinkedHashSet<>()).add(right);
      hmms.putIfAbsent(sound(hmm), hmm);
    }
    rightsOfSound.forEach(
        (sound, allowed) -> {
          WordEnd wordEnd = new WordEnd(word, node.phone(), allowed);
          segments.add(
              new Segment(
                  hmm(hmms, sound),
                  false,
                  models.mixtures(),
                  () -> List.of(new SearchPoint.Step(wordEnd, 0))));
        });
  }

  private static HMM hmm(Map<Object, HMM> hmms, Object sound) {
    HMM hmm = hmms.get(sound);
    if (hmm == null) {
      throw new IllegalStateException("no model for " + sound);
    }
    return hmm;
  }

  private List<SearchStateArc> innerArcs(List<PhoneTree> nexts, Unit left) {
    List<SearchStateArc> arcs = new ArrayList<>();
    for (PhoneTree next : nexts) {
      for (Segment segment : next.segments(left, unused -> segmentsOf(next, left, false))) {
        arcs.add(new SearchPoint.Step(segment.first(), 0));
      }
    }
    return arcs;
  }

  /** Two models that use the same senones and transitions sound the same. */
  private static Object sound(HMM hmm) {
    return hmm instanceof SenoneHMM tied
        ? List.of(tied.getSenoneSequence(), tied.getBaseUnit())
        : hmm;
  }

  /** Where a word has been said in full. */
  final class WordEnd extends SearchPoint {
    private final WordGraph.Arc word;
    private final Unit lastPhone;
    private final Set<Unit> rights;
    private SearchStateArc @Nullable [] successors;

    WordEnd(WordGraph.Arc word, Unit lastPhone, Set<Unit> rights) {
      this.word = word;
      this.lastPhone = lastPhone;
      this.rights = rights;
    }

    String text() {
      return word.word();
    }

    @Override
    public SearchStateArc[] getSuccessors() {
      SearchStateArc[] known = successors;
      if (known == null) {
        known = follow().toArray(NO_ARCS);
        successors = known;
      }
      return known;
    }

    private List<SearchStateArc> follow() {
      List<SearchStateArc> arcs = new ArrayList<>();
      for (PhoneTree branch : tree(word.target()).branches()) {
        if (rights.contains(branch.phone())) {
          enter(branch, lastPhone, arcs);
        }
      }
      if (rights.contains(models.silence())) {
        arcs.add(new Step(pause(word.target()).first(), silenceInsertion));
        if (grammar.isFinal(word.target())) {
          arcs.add(new Step(end, 0));
        }
      }
      return arcs;
    }

    @Override
    public String toPrettyString() {
      return word.word();
    }
  }

  /** Before anything was said. */
  private final class Start extends SearchPoint {
    private SearchStateArc @Nullable [] successors;

    @Override
    public SearchStateArc[] getSuccessors() {
      SearchStateArc[] known = successors;
      if (known == null) {
        List<SearchStateArc> arcs = wordsAndEnd(grammar.start(), models.silence());
        arcs.removeIf(arc -> arc.getState() == end);
        arcs.add(new Step(pause(grammar.start()).first(), silenceInsertion));
        known = arcs.toArray(NO_ARCS);
        successors = known;
      }
      return known;
    }

    @Override
    public String toPrettyString() {
      return "start";
    }
  }

  /** A whole phrase of the grammar has been said. */
  private static final class End extends SearchPoint {
    @Override
    public boolean isFinal() {
      return true;
    }

    @Override
    public SearchStateArc[] getSuccessors() {
      return NO_ARCS;
    }

    @Override
    public String toPrettyString() {
      return "end";
    }
  }
}
