package tallyback.web.lan;

import java.io.IOException;
import java.net.InetAddress;
import java.net.URI;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyPair;
import java.security.KeyStore;
import java.security.PrivateKey;
import java.security.cert.Certificate;
import java.security.cert.CertificateEncodingException;
import java.security.cert.CertificateParsingException;
import java.security.cert.X509Certificate;
import java.time.Duration;
import java.time.InstantSource;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import tallyback.app.MachineFailed;
import tallyback.app.WrongUse;
import tallyback.report.SquareCode;

/**
 * What a server needs so that a phone of the same network may be its page: where it is found there,
 * the keys that prove it, and who may come in. What is made is kept in a folder. Thread rule: any
 * thread.
 */
public final class Lan {

  /** So long before its end a certificate is made anew. */
  private static final Duration NEAR_ITS_END = Duration.ofDays(30);

  private static final String AUTHORITY_CERTIFICATE = "authority.crt";
  private static final String AUTHORITY_KEY = "authority.key";
  private static final String PAGE_CERTIFICATE = "page.crt";
  private static final String PAGE_KEY = "page.key";

  private static final int ADDRESS_TYPE = 7;

  private final KeyFolder folder;
  private final InstantSource clock;
  private final InetAddress address;
  private final List<InetAddress> addresses;
  private final Authority authority;
  private final List<String> names;
  private final Devices devices;
  private final PairingCode code;
  private Page page;

  /** The server's own key and certificate. */
  private record Page(PrivateKey key, X509Certificate certificate) {}

  private Lan(KeyFolder folder, Machine machine, InetAddress address, InstantSource clock) {
    this.folder = folder;
    this.clock = clock;
    this.address = address;
    Set<InetAddress> all = new LinkedHashSet<>(List.of(address));
    machine.addresses().forEach(each -> all.add(each.address()));
    this.addresses = List.copyOf(all);
    this.devices = devicesIn(folder, clock);
    this.code = new PairingCode(clock);
    this.authority = folder.alone(() -> authority(machine));
    // A machine that was given another name keeps its authority, and is reached by its addresses.
    this.names = machine.names().stream().filter(allowedNames()::contains).toList();
    this.page = folder.alone(this::keptOrNewPage);
  }

  /**
   * Reads what is kept, and makes what is missing.
   *
   * @param folder where it is kept
   * @param address the address of this machine under which phones find it; null for the only one
   * @throws WrongUse if the address is none of a local network that this machine is in
   * @throws MachineFailed if what is kept can't be read
   */
  public static Lan open(Path folder, @Nullable String address, InstantSource clock) {
    return open(folder, address, Machine.read(), clock);
  }

  static Lan open(Path folder, @Nullable String address, Machine machine, InstantSource clock) {
    InetAddress chosen = address == null ? machine.onlyAddress() : machine.address(address);
    return new Lan(new KeyFolder(folder), machine, chosen, clock);
  }

  /** The paired devices alone, for looking at them and taking them away. */
  public static Devices devicesIn(Path folder, InstantSource clock) {
    return devicesIn(new KeyFolder(folder), clock);
  }

  private static Devices devicesIn(KeyFolder folder, InstantSource clock) {
    return new Devices(folder, clock);
  }

  private Authority authority(Machine machine) {
    X509Certificate certificate = folder.certificate(AUTHORITY_CERTIFICATE);
    PrivateKey key = folder.key(AUTHORITY_KEY);
    if (certificate == null && key == null) {
      Authority made = Authority.make(machine.names(), clock.instant());
      folder.write(AUTHORITY_KEY, made.key());
      folder.write(AUTHORITY_CERTIFICATE, made.certificate());
      return made;
    }
    if (certificate == null || key == null) {
      String missing = certificate == null ? AUTHORITY_CERTIFICATE : AUTHORITY_KEY;
      throw folder.damaged(missing, new IOException("it is missing"));
    }
    if (isOver(certificate)) {
      throw new MachineFailed(
          LanTexts.authorityIsOver(folder.path("")), new IOException("it has ended"));
    }
    try {
      if (!Authority.fit(key, certificate)) {
        throw new GeneralSecurityException("key and certificate don't belong together");
      }
    } catch (GeneralSecurityException e) {
      throw folder.damaged(AUTHORITY_KEY, e);
    }
    return new Authority(key, certificate);
  }

  private boolean isOver(X509Certificate certificate) {
    return clock.instant().isAfter(certificate.getNotAfter().toInstant().minus(NEAR_ITS_END));
  }

  /** The names that the authority may vouch for: those of the machine when it was made. */
  private Set<String> allowedNames() {
    return Authority.namesIn(authority.certificate());
  }

  private Page keptOrNewPage() {
    Page kept = keptPage();
    if (kept != null) {
      return kept;
    }
    KeyPair pair = Authority.newKeys();
    X509Certificate certificate =
        authority.issue(pair.getPublic(), addresses, names, clock.instant());
    folder.write(PAGE_KEY, pair.getPrivate());
    folder.write(PAGE_CERTIFICATE, certificate);
    return new Page(pair.getPrivate(), certificate);
  }

  /** Null when it has to be made anew: nothing is lost by that, so whatever is wrong with it. */
  private @Nullable Page keptPage() {
    try {
      X509Certificate certificate = folder.certificate(PAGE_CERTIFICATE);
      PrivateKey key = folder.key(PAGE_KEY);
      if (certificate == null || key == null || isOver(certificate)) {
        return null;
      }
      certificate.verify(authority.certificate().getPublicKey());
      certificate.checkValidity(java.util.Date.from(clock.instant()));
      return isForThisMachine(certificate) && Authority.fit(key, certificate)
          ? new Page(key, certificate)
          : null;
    } catch (MachineFailed | GeneralSecurityException e) {
      return null;
    }
  }

  private boolean isForThisMachine(X509Certificate certificate) throws CertificateParsingException {
    Set<String> wanted = new TreeSet<>(names);
    addresses.forEach(each -> wanted.add(LocalNets.written(each)));
    Set<String> found = new TreeSet<>();
    Collection<List<?>> alternatives = certificate.getSubjectAlternativeNames();
    if (alternatives != null) {
      for (List<?> each : alternatives) {
        String text = String.valueOf(each.get(1));
        found.add(
            Integer.valueOf(ADDRESS_TYPE).equals(each.get(0))
                ? LocalNets.written(LocalNets.literal(text))
                : text.toLowerCase(Locale.ROOT));
      }
    }
    return found.equals(wanted);
  }

  /** The address at which the server listens. */
  public InetAddress address() {
    return address;
  }

  /** What may stand as the host of its URL: that address as browsers write it, and its names. */
  public List<String> hosts() {
    List<String> hosts = new ArrayList<>(List.of(LocalNets.host(address)));
    hosts.addAll(names);
    return hosts;
  }

  /** Whether the machine still has that address. */
  public boolean isHere() {
    return Machine.isHere(address);
  }

  /** The server's key and certificates, kept in memory and without a password. */
  public synchronized KeyStore keys() {
    try {
      KeyStore store = KeyStore.getInstance("PKCS12");
      store.load(null, new char[0]);
      store.setKeyEntry(
          "page",
          page.key(),
          new char[0],
          new Certificate[] {page.certificate(), authority.certificate()});
      return store;
    } catch (GeneralSecurityException | IOException e) {
      throw new IllegalStateException("this Java keeps no keys", e);
    }
  }

  /** Makes the server's certificate anew when it nears its end; true when it did. */
  public synchronized boolean renewed() {
    if (!isOver(page.certificate())) {
      return false;
    }
    page = folder.alone(this::keptOrNewPage);
    return true;
  }

  /** The authority's certificate as phones take it (DER). */
  public byte[] certificate() {
    try {
      return authority.certificate().getEncoded();
    } catch (CertificateEncodingException e) {
      throw new IllegalStateException(e);
    }
  }

  /** SHA-256 of that certificate, in pairs of hex digits. */
  public String fingerprint() {
    return authority.fingerprint();
  }

  /** The authority's name, under which a phone lists it. */
  public String authorityName() {
    return Authority.nameOf(authority.certificate());
  }

  /** The names and addresses that the authority can vouch for, in words. */
  public String limits() {
    return LanTexts.limits(allowedNames());
  }

  /** Those who may come in. */
  public Devices devices() {
    return devices;
  }

  /** The code that lets one more in. */
  public PairingCode code() {
    return code;
  }

  /**
   * How a phone comes to trust this machine, for the terminal.
   *
   * @param helper where the certificate is fetched
   */
  public List<String> introduction(URI helper) {
    return LanTexts.introduction(helper, fingerprint());
  }

  /** The same, for when some are paired already. */
  public List<String> welcomeBack(URI page, int paired) {
    return LanTexts.welcomeBack(page, paired);
  }

  /**
   * Makes a new code and shows it, for the terminal.
   *
   * @param page where the page is
   * @param colours whether the terminal understands colours
   */
  public List<String> invitation(URI page, ZoneId zone, boolean colours) {
    PairingCode.Shown shown = code.renew();
    URI pair = page.resolve("/pair");
    List<String> lines = new ArrayList<>(LanTexts.invitation(pair, shown.digits()));
    lines.addAll(SquareCode.lines(pair + "#" + shown.digits(), colours));
    lines.addAll(LanTexts.untilWhen(shown.until().atZone(zone)));
    return lines;
  }
}
