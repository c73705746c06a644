package tallyback.app;

import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.List;
import tallyback.model.Entry;

/** Jobs typed line by line as a user would, one a minute, without a data file. */
public final class TypedJob {

  /** Names to speak with where there is no plan. */
  public static final LoadedPlan WITHOUT_PLAN = LoadedPlan.withoutPlan(KnownVoices.none());

  private static final Instant NINE = Instant.parse("2026-03-02T09:00:00Z");

  private TypedJob() {}

  /** What was noted of these lines; one that was neither noted nor answered is a mistake here. */
  public static List<Entry> of(LoadedPlan plan, String lines) {
    Instant[] now = {NINE};
    InstantSource clock = () -> now[0];
    JobDesk.Setting setting = new JobDesk.Setting("keyboard", "mechanic", ZoneOffset.UTC, clock);
    try (JobDesk desk = JobDesk.withoutData(plan, NINE, setting)) {
      TypedLines typed = new TypedLines(desk);
      for (String line : lines.lines().filter(each -> !each.isBlank()).toList()) {
        now[0] = now[0].plusSeconds(60);
        TypedLines.Told told = typed.enter(line.strip());
        if (told.line().startsWith("not noted") || told.line().startsWith("asked")) {
          throw new IllegalArgumentException(told.line());
        }
      }
      return List.copyOf(desk.entries());
    }
  }

  /** Without a plan. */
  public static List<Entry> withoutPlan(String lines) {
    return of(WITHOUT_PLAN, lines);
  }
}
