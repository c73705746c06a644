package tallyback.log;

import java.time.Instant;

/**
 * A job as the log lists it.
 *
 * @param id the job
 * @param planName name of its plan, as frozen when it was opened
 * @param planHash SHA-256 (hex) of the plan's text
 * @param openedAt when the opening happened
 * @param closed true when nothing more is noted in it, but on a visit
 * @param entryCount how many entries it holds, the opening among them
 * @param lastSeq the newest sequence number; equal to {@code entryCount} in a sound log
 * @param lastHash the end of its hash chain (hex): written down elsewhere, it proves later that
 *     nothing was altered
 */
public record JobSummary(
    String id,
    String planName,
    String planHash,
    Instant openedAt,
    boolean closed,
    long entryCount,
    long lastSeq,
    String lastHash) {}
