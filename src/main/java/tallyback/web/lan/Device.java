package tallyback.web.lan;

import java.time.Instant;

/**
 * A device that was paired.
 *
 * @param name as in the log's ids: chosen by the browser, kept by it
 * @param pairedAt when
 * @param tokenHash SHA-256 of its token, in hex: the token itself only the device has
 */
public record Device(String name, Instant pairedAt, String tokenHash) {}
