package tallyback.trade;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * Which socket fits which metric hexagon. Sizes in millimetres, 0 where a standard has none: ISO
 * 4014/4017 (ISO 272), DIN 931/933 (withdrawn, still on many machines), JIS B 1180 annex JA small
 * series, ISO 4162 and JIS B 1189 small flange, EN 1665 large flange. Taken from open parts
 * libraries and Japanese tables. M14 is 21; a library that says 22 is taken for a slip. M7 is from
 * memory.
 *
 * <p>Immutable, safe for any thread.
 *
 * @param diameterMm nominal diameter of the thread
 * @param iso ISO 4014 and 4017
 * @param din DIN 931 and 933
 * @param jisSmall JIS B 1180, small hexagon
 * @param smallFlange ISO 4162 and JIS B 1189
 * @param largeFlange EN 1665
 */
public record WidthAcrossFlats(
    int diameterMm, int iso, int din, int jisSmall, int smallFlange, int largeFlange) {

  private static final List<WidthAcrossFlats> TABLE =
      List.of(
          new WidthAcrossFlats(5, 8, 8, 0, 7, 8),
          new WidthAcrossFlats(6, 10, 10, 0, 8, 10),
          new WidthAcrossFlats(7, 11, 11, 0, 0, 0),
          new WidthAcrossFlats(8, 13, 13, 12, 10, 13),
          new WidthAcrossFlats(10, 16, 17, 14, 13, 16),
          new WidthAcrossFlats(12, 18, 19, 17, 15, 18),
          new WidthAcrossFlats(14, 21, 22, 19, 18, 21),
          new WidthAcrossFlats(16, 24, 24, 22, 21, 24),
          new WidthAcrossFlats(18, 27, 27, 24, 0, 0),
          new WidthAcrossFlats(20, 30, 30, 27, 0, 30),
          new WidthAcrossFlats(22, 34, 32, 30, 0, 0),
          new WidthAcrossFlats(24, 36, 36, 32, 0, 0));

  /** The row of a thread, if the table has it. */
  public static Optional<WidthAcrossFlats> of(ScrewThread thread) {
    return TABLE.stream()
        .filter(row -> !thread.unified() && row.diameterMm() == thread.diameterMm())
        .findFirst();
  }

  /** The sizes a head on this thread may have, the usual one first. */
  public Set<Integer> sizesMm() {
    Set<Integer> sizes = new LinkedHashSet<>();
    for (int size : new int[] {iso, din, jisSmall, smallFlange, largeFlange}) {
      if (size > 0) {
        sizes.add(size);
      }
    }
    return sizes;
  }

  /** Diameters in millimetres of the threads on which a head of this size may sit. */
  public static Set<Integer> diametersMm(int headMm) {
    Set<Integer> diameters = new LinkedHashSet<>();
    TABLE.stream()
        .filter(row -> row.sizesMm().contains(headMm))
        .forEach(row -> diameters.add(row.diameterMm()));
    return diameters;
  }
}
