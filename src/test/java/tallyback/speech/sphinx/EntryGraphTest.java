package tallyback.speech.sphinx;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertSame;

import edu.cmu.sphinx.linguist.SearchState;
import edu.cmu.sphinx.linguist.SearchStateArc;
import java.util.ArrayDeque;
import java.util.Collections;
import java.util.Deque;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import tallyback.phrase.WordGraph;
import tallyback.speech.CmuLexicon;

class EntryGraphTest {

  private static EntryGraph graph() {
    PhoneModels models = PhoneModels.load();
    return new EntryGraph(
        WordGraph.ofPhrases(
            List.of(
                List.of("six", "pump", "bolts", "off"),
                List.of("six", "pump", "bolts", "on"),
                List.of("drain", "plug", "off"))),
        new Pronouncer(CmuLexicon.load(), models),
        models,
        () -> -1f,
        -1f);
  }

  /** How often each state is in the graph, all that can be reached. */
  private static Map<String, Integer> states(EntryGraph graph) {
    Set<SearchState> known = Collections.newSetFromMap(new IdentityHashMap<>());
    Deque<SearchState> next = new ArrayDeque<>(List.of(graph.getInitialState()));
    Map<String, Integer> counts = new TreeMap<>();
    while (!next.isEmpty()) {
      SearchState state = next.remove();
      if (known.add(state)) {
        counts.merge(state.toPrettyString(), 1, Integer::sum);
        for (SearchStateArc arc : state.getSuccessors()) {
          next.add(arc.getState());
        }
      }
    }
    return counts;
  }

  @Test
  void whatIsForgottenIsMadeAnewAlike() {
    EntryGraph graph = graph();
    assertEquals(0, graph.segments());
    Map<String, Integer> before = states(graph);
    int made = graph.segments();
    assertNotEquals(0, made);
    SearchStateArc[] kept = graph.getInitialState().getSuccessors();

    graph.shrink(made);
    assertSame(kept, graph.getInitialState().getSuccessors());

    graph.shrink(made - 1);
    assertEquals(0, graph.segments());
    assertEquals(before, states(graph));
    assertEquals(made, graph.segments());
  }
}
