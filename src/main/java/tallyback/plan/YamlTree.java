package tallyback.plan;

import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Compose;
import org.snakeyaml.engine.v2.api.lowlevel.Parse;
import org.snakeyaml.engine.v2.events.Event;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.nodes.Node;

/** Turns text into YAML nodes with line marks. JSON goes the same way, being YAML 1.2. */
final class YamlTree {

  /**
   * A plan needs six levels; what nests deeper is a slip or an attack on the recursive composer.
   */
  static final int MOST_LEVELS = 16;

  /** Enough for shared values; too few for a file that unfolds without end. */
  static final int MOST_ALIASES = 50;

  private YamlTree() {}

  /** The root node, or empty with the fault gathered. */
  static Optional<Node> read(String text, Faults faults) {
    LoadSettings settings =
        LoadSettings.builder()
            .setUseMarks(true)
            .setAllowDuplicateKeys(true)
            .setMaxAliasesForCollections(MOST_ALIASES)
            .setCodePointLimit(PlanReader.LARGEST_BYTES)
            .build();
    try {
      if (!withinLimits(settings, text, faults)) {
        return Optional.empty();
      }
      Optional<Node> root = new Compose(settings).composeString(text);
      if (root.isEmpty()) {
        faults.empty();
      }
      return root;
    } catch (MarkedYamlEngineException e) {
      explain(e, text, faults);
      return Optional.empty();
    } catch (YamlEngineException e) {
      faults.notYaml(Spot.WHOLE_FILE, String.valueOf(e.getMessage()));
      return Optional.empty();
    }
  }

  /** Walks the flat stream of events first, because composing recurses and trusts the file. */
  private static boolean withinLimits(LoadSettings settings, String text, Faults faults) {
    int level = 0;
    int aliases = 0;
    int documents = 0;
    Iterator<Event> events = new Parse(settings).parseString(text).iterator();
    while (events.hasNext()) {
      Event event = events.next();
      Spot spot = Spot.of(event.getStartMark(), "");
      switch (event.getEventId()) {
        case SequenceStart, MappingStart -> level++;
        case SequenceEnd, MappingEnd -> level--;
        case Alias -> aliases++;
        case DocumentStart -> documents++;
        default -> {}
      }
      if (level > MOST_LEVELS) {
        faults.tooDeep(spot, MOST_LEVELS);
        return false;
      }
      if (aliases > MOST_ALIASES) {
        faults.tooManyAliases(spot, MOST_ALIASES);
        return false;
      }
      if (documents > 1) {
        faults.secondDocument(spot);
        return false;
      }
    }
    return true;
  }

  private static void explain(MarkedYamlEngineException e, String text, Faults faults) {
    Optional<Mark> mark = e.getProblemMark().or(e::getContextMark);
    Spot spot = Spot.of(mark, "");
    List<String> lines = text.lines().toList();
    String line = spot.line() >= 1 && spot.line() <= lines.size() ? lines.get(spot.line() - 1) : "";
    int tab = line.indexOf('\t');
    if (tab >= 0 && line.substring(0, tab).isBlank()) {
      faults.tab(new Spot(spot.line(), tab + 1, ""));
    } else {
      faults.notYaml(spot, Optional.ofNullable(e.getProblem()).orElse("not understood"));
    }
  }
}
