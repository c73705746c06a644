package tallyback.plan;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Where in the file each thing of a plan stands, for whoever finds something odd about it later.
 * Filled while the plan is read, by one thread; not changed afterwards.
 */
public final class Places {

  private final Map<String, Section> sections = new LinkedHashMap<>();
  private final Map<String, Spot> spots = new HashMap<>();

  Places() {}

  /** The first that has an id keeps it; the others are faults anyway. */
  void put(String id, Section section) {
    sections.putIfAbsent(id, section);
  }

  /**
   * Where a thing, or a field of it, stands.
   *
   * @param id the thing's id
   * @param path nothing for the thing itself; a field of it, a field of that, or which one of a
   *     list, counted from 0
   * @return the nearest spot there is, or the file as a whole when nothing has the id
   */
  public Spot of(String id, Object... path) {
    Section section = sections.get(id);
    if (section == null) {
      return Spot.WHOLE_FILE;
    }
    StringBuilder key = new StringBuilder(id);
    for (Object each : path) {
      key.append(' ').append(each);
    }
    return spots.computeIfAbsent(key.toString(), unused -> section.spotOf(path));
  }
}
