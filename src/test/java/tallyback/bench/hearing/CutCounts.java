package tallyback.bench.hearing;

import java.util.ArrayList;
import java.util.List;
import tallyback.audio.Clip;

/**
 * What went wrong in cutting, counted against known boundaries.
 *
 * @param utterances how many were spoken
 * @param missed of which no more than half lies in clips
 * @param missedStarts not missed, but more than 50 ms of the beginning is in no clip
 * @param cutEnds not missed, but more than 50 ms of the end is in no clip
 * @param splits that lie in more than one clip
 * @param joins that share a clip with the one before
 * @param extra clips that hold nothing spoken
 * @param extraMs length of these
 * @param soundMs length of all the sound
 */
record CutCounts(
    long utterances,
    long missed,
    long missedStarts,
    long cutEnds,
    long splits,
    long joins,
    long extra,
    long extraMs,
    long soundMs) {

  /** Less of a beginning or end is not missed by anybody. */
  static final int TOLERATED_MS = 50;

  static final CutCounts NONE = new CutCounts(0, 0, 0, 0, 0, 0, 0, 0, 0);

  /** Where somebody speaks, in milliseconds of the stream. */
  record Spoken(long startMs, long endMs) {

    long overlapMs(Clip clip) {
      return Math.max(0, Math.min(endMs, clip.endMs()) - Math.max(startMs, clip.startMs()));
    }
  }

  /** Compares what was cut with what was spoken. */
  static CutCounts of(List<Spoken> spoken, List<Clip> clips, long soundMs) {
    CutCounts sum = NONE;
    for (int i = 0; i < spoken.size(); i++) {
      Spoken before = i == 0 ? new Spoken(0, 0) : spoken.get(i - 1);
      sum = sum.plus(one(spoken.get(i), before, clips));
    }
    List<Clip> extra =
        clips.stream()
            .filter(clip -> spoken.stream().allMatch(each -> each.overlapMs(clip) == 0))
            .toList();
    long extraMs = extra.stream().mapToLong(Clip::durationMs).sum();
    return sum.plus(new CutCounts(0, 0, 0, 0, 0, 0, extra.size(), extraMs, soundMs));
  }

  private static CutCounts one(Spoken spoken, Spoken before, List<Clip> clips) {
    List<Clip> holding = new ArrayList<>();
    for (Clip clip : clips) {
      if (spoken.overlapMs(clip) > 0) {
        holding.add(clip);
      }
    }
    long heldMs = holding.stream().mapToLong(spoken::overlapMs).sum();
    if (2 * heldMs <= spoken.endMs() - spoken.startMs()) {
      return new CutCounts(1, 1, 0, 0, 0, 0, 0, 0, 0);
    }
    Clip first = holding.get(0);
    Clip last = holding.get(holding.size() - 1);
    return new CutCounts(
        1,
        0,
        first.startMs() > spoken.startMs() + TOLERATED_MS ? 1 : 0,
        last.endMs() < spoken.endMs() - TOLERATED_MS ? 1 : 0,
        holding.size() > 1 ? 1 : 0,
        before.overlapMs(first) > 0 ? 1 : 0,
        0,
        0,
        0);
  }

  CutCounts plus(CutCounts other) {
    return new CutCounts(
        utterances + other.utterances,
        missed + other.missed,
        missedStarts + other.missedStarts,
        cutEnds + other.cutEnds,
        splits + other.splits,
        joins + other.joins,
        extra + other.extra,
        extraMs + other.extraMs,
        soundMs + other.soundMs);
  }

  double extraPerMinute() {
    return soundMs == 0 ? 0 : extra * 60_000.0 / soundMs;
  }

  /** The share of all the time that clips without anything spoken take. */
  double extraTime() {
    return soundMs == 0 ? 0 : (double) extraMs / soundMs;
  }

  /** What to judge by: utterances that will not be heard right because of the cutting. */
  long faults() {
    return missed + missedStarts + cutEnds + splits + joins;
  }
}
