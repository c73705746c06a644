package tallyback.speech.adapt;

import java.time.Instant;

/**
 * A voice that was taught and is better heard so.
 *
 * @param taughtAt when
 * @param before how well it was heard without
 * @param after how well with what was learned of it from other lines than those it was measured by
 * @param profile what was learned from all lines
 */
public record TaughtVoice(
    Instant taughtAt, Measured before, Measured after, VoiceProfile profile) {}
