package tallyback.web.lan;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.security.SecureRandom;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Base64;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.app.MachineFailed;
import tallyback.app.WrongUse;

/**
 * The paired devices, in a file that is read each time: what another process takes away counts at
 * once. Thread rule: any thread.
 */
public final class Devices {

  /** As long as browsers keep a cookie at most. */
  public static final Duration KEPT = Duration.ofDays(400);

  private static final String FILE = "devices.json";
  private static final int MOST = 32;
  private static final int TOKEN_BYTES = 32;
  private static final JsonMapper JSON = JsonMapper.builder().build();

  private final KeyFolder folder;
  private final InstantSource clock;
  private final SecureRandom random = new SecureRandom();

  Devices(KeyFolder folder, InstantSource clock) {
    this.folder = folder;
    this.clock = clock;
  }

  /**
   * Those that may come in, in the order they were paired.
   *
   * @throws MachineFailed if the file can't be read or is not as it was written
   */
  public List<Device> all() {
    String text = folder.read(FILE);
    if (text == null) {
      return List.of();
    }
    Instant oldest = clock.instant().minus(KEPT);
    List<Device> devices = new ArrayList<>();
    try {
      JsonNode read = JSON.readTree(text);
      if (read.path("schema").asInt() != 1 || !read.path("devices").isArray()) {
        throw new IllegalArgumentException("expected schema 1 with devices");
      }
      for (JsonNode each : read.path("devices")) {
        Device device =
            new Device(
                each.path("name").asText(),
                Instant.parse(each.path("pairedAt").asText()),
                each.path("tokenHash").asText());
        if (device.pairedAt().isAfter(oldest)) {
          devices.add(device);
        }
      }
    } catch (JsonProcessingException | DateTimeParseException | IllegalArgumentException e) {
      throw folder.damaged(FILE, e);
    }
    return List.copyOf(devices);
  }

  /**
   * Lets a device in from now on. One of the same name is replaced.
   *
   * @return its token, which is not kept here
   * @throws WrongUse if there are too many
   */
  public String pair(String name) {
    byte[] bytes = new byte[TOKEN_BYTES];
    random.nextBytes(bytes);
    String token = Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
    Instant now = clock.instant();
    return folder.alone(
        () -> {
          List<Device> devices = new ArrayList<>(all());
          devices.removeIf(each -> each.name().equals(name));
          if (devices.size() >= MOST) {
            throw new WrongUse(LanTexts.TOO_MANY_DEVICES);
          }
          devices.add(new Device(name, now, hash(token)));
          write(devices);
          return token;
        });
  }

  /** Whose token it is. */
  public Optional<Device> of(@Nullable String token) {
    if (token == null || token.length() > 100) {
      return Optional.empty();
    }
    byte[] hash = hash(token).getBytes(StandardCharsets.US_ASCII);
    return all().stream()
        .filter(
            each ->
                MessageDigest.isEqual(each.tokenHash().getBytes(StandardCharsets.US_ASCII), hash))
        .findFirst();
  }

  /** Takes a device away; false when there is none of that name. */
  public boolean forget(String name) {
    return folder.alone(
        () -> {
          List<Device> devices = new ArrayList<>(all());
          boolean found = devices.removeIf(each -> each.name().equals(name));
          if (found) {
            write(devices);
          }
          return found;
        });
  }

  private void write(List<Device> devices) {
    ObjectNode root = JsonNodeFactory.instance.objectNode().put("schema", 1);
    ArrayNode list = root.putArray("devices");
    for (Device each : devices) {
      list.addObject()
          .put("name", each.name())
          .put("pairedAt", each.pairedAt().toString())
          .put("tokenHash", each.tokenHash());
    }
    folder.write(FILE, root.toPrettyString() + "\n");
  }

  private static String hash(String token) {
    try {
      return HexFormat.of()
          .formatHex(
              MessageDigest.getInstance("SHA-256").digest(token.getBytes(StandardCharsets.UTF_8)));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }
}
