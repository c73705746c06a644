package tallyback.speech.sphinx;

import edu.cmu.sphinx.linguist.acoustic.Unit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import tallyback.phrase.WordGraph;

/**
 * The words that may follow at one state of the grammar, as one tree of phones: words that begin
 * alike share a stem.
 */
final class PhoneTree {

  private final @Nullable Unit phone;
  private final Map<Unit, PhoneTree> branches = new LinkedHashMap<>();
  private final List<WordGraph.Arc> endings = new ArrayList<>();
  private final Map<Unit, List<Segment>> segmentsByLeft = new HashMap<>();

  private PhoneTree(@Nullable Unit phone) {
    this.phone = phone;
  }

  static PhoneTree of(List<WordGraph.Arc> arcs, Pronouncer pronouncer) {
    PhoneTree root = new PhoneTree(null);
    for (WordGraph.Arc arc : arcs) {
      for (List<Unit> phones : pronouncer.phones(arc.word())) {
        PhoneTree node = root;
        for (Unit phone : phones) {
          node = node.branches.computeIfAbsent(phone, PhoneTree::new);
        }
        node.endings.add(arc);
      }
    }
    return root;
  }

  /** The phone of this node; the root has none. */
  Unit phone() {
    if (phone == null) {
      throw new IllegalStateException("the root of a phone tree has no phone");
    }
    return phone;
  }

  Collection<PhoneTree> branches() {
    return branches.values();
  }

  /** The words whose last phone this is. */
  List<WordGraph.Arc> endings() {
    return endings;
  }

  /** The models of this phone after the given one, made once. */
  List<Segment> segments(Unit left, Function<Unit, List<Segment>> maker) {
    List<Segment> known = segmentsByLeft.get(left);
    if (known == null) {
      known = maker.apply(left);
      segmentsByLeft.put(left, known);
    }
    return known;
  }
}
