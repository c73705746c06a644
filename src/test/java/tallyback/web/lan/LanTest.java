package tallyback.web.lan;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.net.InetAddress;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.KeyPair;
import java.security.cert.CertPathValidator;
import java.security.cert.CertificateFactory;
import java.security.cert.PKIXParameters;
import java.security.cert.TrustAnchor;
import java.security.cert.X509Certificate;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Date;
import java.util.List;
import java.util.Set;
import java.util.concurrent.atomic.AtomicReference;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.app.MachineFailed;
import tallyback.app.WrongUse;
import tallyback.report.SquareCodeTest;

/** The authority, the server's certificate, and what is kept of them. */
class LanTest {

  private static final Instant NINE = Instant.parse("2026-03-02T09:00:00Z");
  private static final Machine BENCH =
      machine(List.of("bench", "bench.local"), "192.168.1.20 wlan0", "fd00::20 wlan0");

  @TempDir private Path home;
  private final AtomicReference<Instant> now = new AtomicReference<>(NINE);

  private static Machine machine(List<String> names, String... addresses) {
    return new Machine(
        names,
        Arrays.stream(addresses)
            .map(each -> each.split(" ", 2))
            .map(each -> new Machine.Address(LocalNets.literal(each[0]), each[1]))
            .toList());
  }

  private Path folder() {
    return home.resolve("lan");
  }

  private Lan open(Machine machine) {
    return Lan.open(folder(), null, machine, now::get);
  }

  private static X509Certificate page(Lan lan) throws Exception {
    return (X509Certificate) lan.keys().getCertificate("page");
  }

  private static X509Certificate authority(Lan lan) throws Exception {
    return (X509Certificate) lan.keys().getCertificateChain("page")[1];
  }

  private static void validate(X509Certificate page, X509Certificate authority, Instant when)
      throws Exception {
    PKIXParameters parameters = new PKIXParameters(Set.of(new TrustAnchor(authority, null)));
    parameters.setRevocationEnabled(false);
    parameters.setDate(Date.from(when));
    CertPathValidator.getInstance("PKIX")
        .validate(
            CertificateFactory.getInstance("X.509").generateCertPath(List.of(page)), parameters);
  }

  @Test
  void theServersCertificateIsValidForItsAddressesAndNamesAndNoLongerThanBrowsersTake()
      throws Exception {
    Lan lan = open(BENCH);
    X509Certificate page = page(lan);
    validate(page, authority(lan), NINE);
    List<String> found =
        page.getSubjectAlternativeNames().stream()
            .map(each -> String.valueOf(each.get(1)))
            .toList();
    assertEquals(List.of("192.168.1.20", "fd00:0:0:0:0:0:0:20", "bench", "bench.local"), found);
    Instant from = page.getNotBefore().toInstant();
    Instant to = page.getNotAfter().toInstant();
    assertTrue(Duration.between(from, to).compareTo(Duration.ofDays(397)) < 0, from + " to " + to);
    assertTrue(Duration.between(NINE, to).compareTo(Duration.ofDays(390)) > 0, to::toString);
    assertEquals(List.of("1.3.6.1.5.5.7.3.1"), page.getExtendedKeyUsage());
    assertEquals(-1, page.getBasicConstraints());
    assertEquals("CN=Tallyback on bench", page.getIssuerX500Principal().getName());
    assertEquals(List.of("192.168.1.20", "bench", "bench.local"), lan.hosts());
  }

  @Test
  void theAuthorityMakesNoOtherAuthorityAndVouchesForWebServersOnly() throws Exception {
    X509Certificate authority = authority(open(BENCH));
    assertEquals(0, authority.getBasicConstraints());
    assertEquals(List.of("1.3.6.1.5.5.7.3.1"), authority.getExtendedKeyUsage());
    // Signs certificates (5), and nothing else.
    boolean[] usage = authority.getKeyUsage();
    for (int i = 0; i < usage.length; i++) {
      assertEquals(i == 5, usage[i], "key usage " + i);
    }
    assertTrue(authority.getCriticalExtensionOIDs().contains("2.5.29.30"), "name constraints");
    assertEquals(Set.of("bench", "bench.local"), Authority.namesIn(authority));
  }

  /** OpenSSL holds an authority to its own name constraints; Java's validation does not. */
  @Test
  void anotherValidatorTakesItAndHoldsTheAuthorityToItsLimits() throws Exception {
    assumeTrue(Files.isExecutable(Path.of("/usr/bin/openssl")), "no openssl here");
    Lan lan = open(BENCH);
    Authority authority = new Authority(assertNotNullKey(new KeyFolder(folder())), authority(lan));
    assertEquals("OK", verified(page(lan), "-verify_ip", "192.168.1.20"));
    assertEquals("OK", verified(page(lan), "-verify_ip", "fd00::20"));
    assertEquals("OK", verified(page(lan), "-verify_hostname", "bench.local"));
    assertTrue(verified(page(lan), "-verify_ip", "192.168.1.21").contains("mismatch"));
    for (List<String> names :
        List.of(List.of("shop.example"), List.of("bench.example"), List.of("notbench"))) {
      String found = verified(issued(authority, List.of(), names));
      assertTrue(found.contains("permitted subtree violation"), names + ": " + found);
    }
    for (String address : List.of("8.8.8.8", "172.32.0.1", "2001:db9::1")) {
      String found = verified(issued(authority, List.of(LocalNets.literal(address)), List.of()));
      assertTrue(found.contains("permitted subtree violation"), address + ": " + found);
    }
  }

  private static java.security.PrivateKey assertNotNullKey(KeyFolder keys) {
    return java.util.Objects.requireNonNull(keys.key("authority.key"));
  }

  private X509Certificate issued(
      Authority authority, List<InetAddress> addresses, List<String> names) {
    KeyPair pair = Authority.newKeys();
    return authority.issue(pair.getPublic(), addresses, names, now.get());
  }

  private String verified(X509Certificate certificate, String... more) throws Exception {
    new KeyFolder(home.resolve("other")).write("it.crt", certificate);
    List<String> command =
        new ArrayList<>(
            List.of(
                "/usr/bin/openssl",
                "verify",
                "-x509_strict",
                "-purpose",
                "sslserver",
                "-attime",
                String.valueOf(now.get().getEpochSecond()),
                "-CAfile",
                folder().resolve("authority.crt").toString()));
    command.addAll(List.of(more));
    command.add(home.resolve("other/it.crt").toString());
    Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
    String printed = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    return process.waitFor() == 0 && printed.strip().endsWith(": OK") ? "OK" : printed;
  }

  @Test
  void whatIsKeptIsUsedAgainUntilTheAddressesChangeOrTheEndIsNear() throws Exception {
    Lan first = open(BENCH);
    Lan again = open(BENCH);
    assertEquals(page(first), page(again));
    assertArrayEquals(first.certificate(), again.certificate());

    Lan moved = open(machine(BENCH.names(), "10.1.2.3 wlan0"));
    assertNotEquals(page(first), page(moved));
    validate(page(moved), authority(first), NINE);
    assertArrayEquals(first.certificate(), moved.certificate());

    Lan back = open(BENCH);
    now.set(page(back).getNotAfter().toInstant().minus(Duration.ofDays(30)));
    assertFalse(back.renewed());
    assertEquals(page(back), page(open(BENCH)));
    now.set(now.get().plusSeconds(1));
    X509Certificate old = page(back);
    assertTrue(back.renewed());
    assertNotEquals(old, page(back));
    validate(page(back), authority(first), now.get());
    assertFalse(back.renewed());
    assertEquals(page(back), page(open(BENCH)));
  }

  @Test
  void aMachineThatWasGivenAnotherNameIsReachedByItsAddresses() throws Exception {
    open(BENCH);
    Lan renamed = open(machine(List.of("lathe", "lathe.local"), "192.168.1.20 wlan0"));
    assertEquals(List.of("192.168.1.20"), renamed.hosts());
    assertEquals(1, page(renamed).getSubjectAlternativeNames().size());
  }

  @Test
  void aMachineWithoutANameMayVouchForNoName() throws Exception {
    Lan lan = open(machine(List.of(), "192.168.1.20 wlan0"));
    assertEquals("Tallyback", lan.authorityName());
    assertEquals("addresses of local networks", lan.limits());
    assumeTrue(Files.isExecutable(Path.of("/usr/bin/openssl")), "no openssl here");
    Authority authority = new Authority(assertNotNullKey(new KeyFolder(folder())), authority(lan));
    assertEquals("OK", verified(page(lan), "-verify_ip", "192.168.1.20"));
    String found = verified(issued(authority, List.of(), List.of("shop.example")));
    assertTrue(found.contains("permitted subtree violation"), found);
  }

  @Test
  void keysAreForTheirOwnerOnly() throws Exception {
    open(BENCH);
    assumeTrue(Files.getFileStore(home).supportsFileAttributeView("posix"), "no such file rights");
    try (Stream<Path> files = Files.list(folder())) {
      for (Path each : files.filter(file -> !file.endsWith("lock")).toList()) {
        assertEquals(
            "rw-------",
            PosixFilePermissions.toString(Files.getPosixFilePermissions(each)),
            each::toString);
      }
    }
    Files.setPosixFilePermissions(folder(), PosixFilePermissions.fromString("rwxr-xr-x"));
    open(BENCH);
    assertEquals(
        "rwx------", PosixFilePermissions.toString(Files.getPosixFilePermissions(folder())));
  }

  @Test
  void anAuthorityThatIsDamagedIsToldAndNotMadeAnew() throws Exception {
    open(BENCH);
    for (String name : List.of("authority.key", "authority.crt")) {
      byte[] right = Files.readAllBytes(folder().resolve(name));
      damage(name, new byte[0]);
      damage(name, Arrays.copyOf(right, right.length / 2));
      damage(name, new byte[1 << 17]);
      Files.delete(folder().resolve(name));
      assertTrue(told().contains(name + ": is missing or not as Tallyback wrote it"), told());
      Files.write(folder().resolve(name), right);
      open(BENCH);
    }
    // A key of its own kind that belongs to something else.
    damage("authority.key", Files.readAllBytes(folder().resolve("page.key")));
  }

  private void damage(String name, byte[] bytes) throws IOException {
    byte[] right = Files.readAllBytes(folder().resolve(name));
    Files.write(folder().resolve(name), bytes);
    assertTrue(told().contains(name), told());
    Files.write(folder().resolve(name), right);
  }

  private String told() {
    return String.valueOf(assertThrows(MachineFailed.class, () -> open(BENCH)).getMessage());
  }

  @Test
  void aPageKeyThatIsDamagedIsMadeAnew() throws Exception {
    Lan first = open(BENCH);
    Files.write(folder().resolve("page.key"), new byte[3]);
    Lan again = open(BENCH);
    validate(page(again), authority(first), NINE);
    Files.copy(
        folder().resolve("authority.key"),
        folder().resolve("page.key"),
        java.nio.file.StandardCopyOption.REPLACE_EXISTING);
    assertNotEquals(page(again), page(open(BENCH)), "a key that doesn't fit its certificate");
  }

  @Test
  void anAuthorityAtItsEndIsToldWithARemedy() {
    open(BENCH);
    now.set(NINE.plus(Duration.ofDays(3650)));
    assertTrue(told().startsWith("the certificate authority of this machine has come to its end"));
  }

  @Test
  void theAddressIsTheOnlyOneOrTheOneThatIsNamed() throws Exception {
    assertEquals("192.168.1.20", LocalNets.written(open(BENCH).address()));
    Machine two = machine(List.of(), "192.168.1.20 wlan0", "172.17.0.1 docker0");
    assertRefused(
        "--lan: this machine is in several networks; name its address in the one that the phone is"
            + " in, with --address: 192.168.1.20 (wlan0), 172.17.0.1 (docker0)",
        () -> open(two));
    assertRefused(
        "--lan: this machine is in no local network; connect it to the shed's Wi-Fi or cable first",
        () -> open(machine(List.of("bench"))));
    assertEquals(
        "fd00::20", LocalNets.written(open(machine(List.of(), "fd00::20 eth0")).address()));
  }

  @Test
  void anAddressThatCanNotBeIsToldWithTheCause() {
    assertRefused("--address shed: expected an address of this machine in figures", "shed");
    assertRefused(
        "--address 1.2.3.4.5: expected an address of this machine in figures", "1.2.3.4.5");
    assertRefused("--address 8.8.8.8: that address can be reached from the Internet", "8.8.8.8");
    assertRefused(
        "--address 10.99.98.97: this machine doesn't have it; it has 192.168.1.20 (wlan0),"
            + " fd00::20 (wlan0)",
        "10.99.98.97");
    assertEquals("127.0.0.1", Lan.open(folder(), "127.0.0.1", BENCH, now::get).hosts().get(0));
  }

  private void assertRefused(String beginning, String address) {
    assertRefused(beginning, () -> Lan.open(folder(), address, BENCH, now::get));
  }

  private static void assertRefused(
      String beginning, org.junit.jupiter.api.function.Executable work) {
    WrongUse refused = assertThrows(WrongUse.class, work);
    String told = String.valueOf(refused.getMessage());
    assertTrue(told.startsWith(beginning), told);
    assertFalse(told.contains("\n"));
  }

  @Test
  void namesThatOthersInTheNetworkCanUse() {
    assertEquals(List.of("bench", "bench.local"), Machine.namesOf("Bench"));
    assertEquals(List.of("bench.shed.example"), Machine.namesOf("bench.shed.example"));
    for (String none :
        List.of(
            "", "localhost", "localhost.localdomain", "a_b", "-a", "a..b", "1.2.3.4", "b\u00e9")) {
      assertEquals(List.of(), Machine.namesOf(none), none);
    }
    assertNotNull(Machine.read());
  }

  @Test
  void theInvitationShowsTheSameAsDigitsAndAsSquareCode() throws Exception {
    Lan lan = open(BENCH);
    List<String> lines =
        lan.invitation(URI.create("https://192.168.1.20:7117/"), ZoneOffset.UTC, false);
    String typed = lines.get(1);
    assertTrue(
        typed.matches(
            "2\\. Pair it: point its camera at this, or open https://192\\.168\\.1\\.20:7117/pair"
                + " and type [0-9]{4} [0-9]{4}"),
        typed);
    String digits = typed.substring(typed.length() - 9).replace(" ", "");
    assertEquals(
        "https://192.168.1.20:7117/pair#" + digits,
        SquareCodeTest.read(lines.subList(3, lines.size() - 2)));
    assertEquals("Good once, until 09:10. Enter shows a new code.", lines.get(lines.size() - 1));
    assertEquals(PairingCode.Outcome.RIGHT, lan.code().say(digits));
    String told = String.join("", lan.introduction(URI.create("http://192.168.1.20:7118/")));
    assertTrue(told.contains("http://192.168.1.20:7118/"), told);
    assertTrue(told.replaceAll("\\s", "").contains(lan.fingerprint()), told);
    assertTrue(lan.fingerprint().matches("([0-9A-F]{2}:){31}[0-9A-F]{2}"), lan.fingerprint());
  }
}
