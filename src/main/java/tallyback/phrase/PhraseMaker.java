package tallyback.phrase;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Set;
import java.util.random.RandomGenerator;

/**
 * Makes phrases of a grammar: at random, but so that branches that were taken least come next, and
 * on request through words of the graph that no phrase went through yet.
 *
 * <p>Thread rule: belongs to one thread.
 */
final class PhraseMaker {

  /** A repeat goes round at most so often beyond what it must. */
  private static final int MOST_EXTRA_ROUNDS = 3;

  /** After so many words a walk through the graph turns to the nearest end. */
  private static final int LONG_WALK_WORDS = 20;

  /**
   * What the phrases made so far went through.
   *
   * @param arcs how many arcs the graph has
   * @param arcsCovered how many of them some phrase went through
   * @param rules how many rules can be reached and said
   * @param rulesMissed the names of those that no phrase went through
   */
  record Coverage(int arcs, int arcsCovered, int rules, List<String> rulesMissed) {
    @Override
    public String toString() {
      return arcsCovered
          + " of "
          + arcs
          + " arcs, "
          + (rules - rulesMissed.size())
          + " of "
          + rules
          + " rules";
    }
  }

  private final CompiledGrammar grammar;
  private final RandomGenerator random;
  private final Set<String> sayable;
  private final IdentityHashMap<Expansion, Integer> timesTaken = new IdentityHashMap<>();
  private final Set<String> rulesSaid = new HashSet<>();
  private final WordGraph graph;
  private final boolean[][] covered;
  private final int[] wordsToEnd;
  private int arcsCovered;

  PhraseMaker(CompiledGrammar grammar, RandomGenerator random) {
    this.grammar = grammar;
    this.random = random;
    this.sayable = grammar.book().sayable();
    this.graph = grammar.graph();
    this.covered = new boolean[graph.stateCount()][];
    for (int state = 0; state < covered.length; state++) {
      covered[state] = new boolean[graph.arcs(state).size()];
    }
    this.wordsToEnd = wordsToEnd(graph);
  }

  /** The next phrase. Over many, the branches of each choice come up equally often. */
  List<String> next() {
    List<String> phrase = new ArrayList<>();
    say(grammar.book().rule(grammar.book().root()), phrase);
    cover(phrase);
    return List.copyOf(phrase);
  }

  /** Phrases that together with those made before go through every arc of the graph. */
  List<List<String>> restOfCoverage() {
    List<Integer> reachedFrom = new ArrayList<>();
    List<String> reachedBy = new ArrayList<>();
    List<Integer> order = breadthFirst(reachedFrom, reachedBy);
    List<List<String>> phrases = new ArrayList<>();
    for (int state : order) {
      for (int arc = 0; arc < covered[state].length; arc++) {
        if (!covered[state][arc]) {
          List<String> phrase = wayTo(state, reachedFrom, reachedBy);
          phrase.add(graph.arcs(state).get(arc).word());
          walkToEnd(graph.arcs(state).get(arc).target(), phrase);
          cover(phrase);
          phrases.add(List.copyOf(phrase));
        }
      }
    }
    return phrases;
  }

  /** What the phrases made so far went through. */
  Coverage coverage() {
    Set<String> wanted = new HashSet<>();
    ArrayDeque<String> open = new ArrayDeque<>(List.of(grammar.book().root()));
    while (!open.isEmpty()) {
      String name = open.remove();
      if (wanted.add(name)) {
        sayableReferences(grammar.book().rule(name).expansion()).forEach(open::add);
      }
    }
    List<String> missed =
        wanted.stream().filter(rule -> !rulesSaid.contains(rule)).sorted().toList();
    return new Coverage(graph.arcCount(), arcsCovered, wanted.size(), missed);
  }

  private List<String> sayableReferences(Expansion expansion) {
    if (!canBeSaid(expansion)) {
      return List.of();
    }
    if (expansion instanceof Expansion.Reference reference) {
      return List.of(reference.rule());
    }
    return expansion.children().stream()
        .flatMap(child -> sayableReferences(child).stream())
        .toList();
  }

  private boolean canBeSaid(Expansion expansion) {
    return expansion.canBeSaid(sayable::contains);
  }

  private void say(JsgfRule rule, List<String> phrase) {
    rulesSaid.add(rule.name());
    say(rule.expansion(), phrase);
  }

  private void say(Expansion expansion, List<String> phrase) {
    if (expansion instanceof Expansion.Word word) {
      phrase.add(word.text());
    } else if (expansion instanceof Expansion.Reference reference) {
      say(grammar.book().rule(reference.rule()), phrase);
    } else if (expansion instanceof Expansion.Sequence sequence) {
      sequence.parts().forEach(part -> say(part, phrase));
    } else if (expansion instanceof Expansion.Choice choice) {
      say(leastTaken(choice.branches()), phrase);
    } else if (expansion instanceof Expansion.Maybe maybe) {
      if (canBeSaid(maybe.body()) && random.nextBoolean()) {
        say(maybe.body(), phrase);
      }
    } else if (expansion instanceof Expansion.Repeat repeat && canBeSaid(repeat.body())) {
      int rounds = (repeat.atLeastOnce() ? 1 : 0) + random.nextInt(MOST_EXTRA_ROUNDS + 1);
      for (int round = 0; round < rounds; round++) {
        say(repeat.body(), phrase);
      }
    }
  }

  /**
   * One of the branches that were taken least so far, so that no branch waits long for its turn.
   */
  private Expansion leastTaken(List<Expansion> branches) {
    List<Expansion> possible = branches.stream().filter(this::canBeSaid).toList();
    int least = possible.stream().mapToInt(this::timesTaken).min().orElse(0);
    List<Expansion> waiting =
        possible.stream().filter(branch -> timesTaken(branch) == least).toList();
    Expansion taken = waiting.get(random.nextInt(waiting.size()));
    timesTaken.merge(taken, 1, Integer::sum);
    return taken;
  }

  private int timesTaken(Expansion branch) {
    return timesTaken.getOrDefault(branch, 0);
  }

  private void cover(List<String> phrase) {
    int state = graph.start();
    for (String word : phrase) {
      int arc = 0;
      while (!graph.arcs(state).get(arc).word().equals(word)) {
        arc++;
      }
      arcsCovered += covered[state][arc] ? 0 : 1;
      covered[state][arc] = true;
      state = graph.arcs(state).get(arc).target();
    }
  }

  private List<Integer> breadthFirst(List<Integer> reachedFrom, List<String> reachedBy) {
    for (int state = 0; state < graph.stateCount(); state++) {
      reachedFrom.add(-1);
      reachedBy.add("");
    }
    List<Integer> order = new ArrayList<>(List.of(graph.start()));
    for (int i = 0; i < order.size(); i++) {
      int state = order.get(i);
      for (WordGraph.Arc arc : graph.arcs(state)) {
        if (arc.target() != graph.start() && reachedFrom.get(arc.target()) < 0) {
          reachedFrom.set(arc.target(), state);
          reachedBy.set(arc.target(), arc.word());
          order.add(arc.target());
        }
      }
    }
    return order;
  }

  private List<String> wayTo(int state, List<Integer> reachedFrom, List<String> reachedBy) {
    List<String> way = new ArrayList<>();
    for (int at = state; at != graph.start(); at = reachedFrom.get(at)) {
      way.add(0, reachedBy.get(at));
    }
    return way;
  }

  /** Goes on at random, through new arcs first, and after a while by the shortest way to an end. */
  private void walkToEnd(int from, List<String> phrase) {
    int state = from;
    while (wordsToEnd[state] > 0 || (phrase.size() < LONG_WALK_WORDS && hasNewArc(state))) {
      int here = state;
      List<WordGraph.Arc> arcs = graph.arcs(state);
      List<WordGraph.Arc> wanted = arcs;
      if (phrase.size() >= LONG_WALK_WORDS) {
        wanted = arcs.stream().filter(arc -> wordsToEnd[arc.target()] < wordsToEnd[here]).toList();
      } else if (hasNewArc(state)) {
        wanted = arcs.stream().filter(arc -> !covered[here][arcs.indexOf(arc)]).toList();
      }
      WordGraph.Arc taken = wanted.get(random.nextInt(wanted.size()));
      phrase.add(taken.word());
      state = taken.target();
    }
  }

  private boolean hasNewArc(int state) {
    for (boolean done : covered[state]) {
      if (!done) {
        return true;
      }
    }
    return false;
  }

  /** For each state the fewest words to an end. */
  private static int[] wordsToEnd(WordGraph graph) {
    int[][] targets = new int[graph.stateCount()][];
    int[] words = new int[graph.stateCount()];
    Arrays.fill(words, Integer.MAX_VALUE);
    ArrayDeque<Integer> open = new ArrayDeque<>();
    for (int state = 0; state < targets.length; state++) {
      targets[state] = graph.arcs(state).stream().mapToInt(WordGraph.Arc::target).toArray();
      if (graph.isFinal(state)) {
        words[state] = 0;
        open.add(state);
      }
    }
    int[][] sources = Automata.reversed(targets);
    while (!open.isEmpty()) {
      int state = open.remove();
      for (int source : sources[state]) {
        if (words[source] == Integer.MAX_VALUE) {
          words[source] = words[state] + 1;
          open.add(source);
        }
      }
    }
    return words;
  }
}
