package tallyback.web.lan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.app.MachineFailed;
import tallyback.app.WrongUse;

/** The list of paired devices. */
class DevicesTest {

  private static final Instant NINE = Instant.parse("2026-03-02T09:00:00Z");

  @TempDir private Path home;
  private final AtomicReference<Instant> now = new AtomicReference<>(NINE);

  @SuppressWarnings("NullAway.Init") // set before each test
  private Devices devices;

  @BeforeEach
  void open() {
    devices = Lan.devicesIn(home.resolve("lan"), now::get);
  }

  private List<String> names() {
    return devices.all().stream().map(Device::name).toList();
  }

  @Test
  void aTokenIsKnownAgainByAnotherProcessAndIsNotOnDisk() throws Exception {
    String token = devices.pair("p1");
    String other = devices.pair("p2");
    Devices later = Lan.devicesIn(home.resolve("lan"), now::get);
    assertEquals("p1", later.of(token).orElseThrow().name());
    assertEquals("p2", later.of(other).orElseThrow().name());
    assertEquals(Optional.empty(), later.of(null));
    assertEquals(Optional.empty(), later.of(""));
    assertEquals(Optional.empty(), later.of(token.substring(1)));
    Path file = home.resolve("lan/devices.json");
    String written = Files.readString(file);
    assertFalse(written.contains(token) || written.contains(other));
    // The hash is no token either.
    assertEquals(Optional.empty(), later.of(later.all().get(0).tokenHash()));
    if (Files.getFileStore(file).supportsFileAttributeView("posix")) {
      assertEquals("rw-------", PosixFilePermissions.toString(Files.getPosixFilePermissions(file)));
      assertEquals(
          "rwx------",
          PosixFilePermissions.toString(Files.getPosixFilePermissions(file.getParent())));
    }
  }

  @Test
  void whoIsTakenAwayIsKnownNoMoreToAnybody() {
    String token = devices.pair("p1");
    String stays = devices.pair("p2");
    assertTrue(Lan.devicesIn(home.resolve("lan"), now::get).forget("p1"));
    assertEquals(Optional.empty(), devices.of(token));
    assertTrue(devices.of(stays).isPresent());
    assertFalse(devices.forget("p1"));
    assertEquals(List.of("p2"), names());
  }

  @Test
  void whoIsPairedAgainHasOneToken() {
    String before = devices.pair("p1");
    String after = devices.pair("p1");
    assertEquals(List.of("p1"), names());
    assertEquals(Optional.empty(), devices.of(before));
    assertTrue(devices.of(after).isPresent());
  }

  @Test
  void aTokenEndsWithItsCookie() {
    String token = devices.pair("p1");
    now.set(NINE.plus(Duration.ofDays(400)).minusSeconds(1));
    assertTrue(devices.of(token).isPresent());
    now.set(NINE.plus(Duration.ofDays(400)));
    assertEquals(Optional.empty(), devices.of(token));
  }

  @Test
  void thirtyTwoAreEnough() {
    for (int i = 0; i < 32; i++) {
      devices.pair("p" + i);
    }
    WrongUse refused = assertThrows(WrongUse.class, () -> devices.pair("p32"));
    assertTrue(
        String.valueOf(refused.getMessage())
            .startsWith("too many devices are paired; take one away"));
    devices.pair("p31");
    assertEquals(32, devices.all().size());
  }

  @Test
  void aFileThatIsNotAsItWasWrittenLetsNobodyIn() throws Exception {
    String token = devices.pair("p1");
    Path file = home.resolve("lan/devices.json");
    for (String text : List.of("", "{", "[]", "{\"schema\":2,\"devices\":[]}", "{\"schema\":1}")) {
      Files.writeString(file, text);
      MachineFailed failed = assertThrows(MachineFailed.class, () -> devices.of(token), text);
      assertTrue(
          String.valueOf(failed.getMessage())
              .startsWith(file + ": is missing or not as Tallyback wrote it; put it back, or move"),
          failed::getMessage);
    }
  }
}
