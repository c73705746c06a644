package tallyback.web.lan;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigInteger;
import java.net.InetAddress;
import java.security.GeneralSecurityException;
import java.security.KeyPair;
import java.security.KeyPairGenerator;
import java.security.MessageDigest;
import java.security.PrivateKey;
import java.security.PublicKey;
import java.security.SecureRandom;
import java.security.Signature;
import java.security.cert.X509Certificate;
import java.security.spec.ECGenParameterSpec;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Date;
import java.util.HexFormat;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.bouncycastle.asn1.ASN1OctetString;
import org.bouncycastle.asn1.DEROctetString;
import org.bouncycastle.asn1.x500.X500Name;
import org.bouncycastle.asn1.x500.X500NameBuilder;
import org.bouncycastle.asn1.x500.style.BCStyle;
import org.bouncycastle.asn1.x500.style.IETFUtils;
import org.bouncycastle.asn1.x509.BasicConstraints;
import org.bouncycastle.asn1.x509.ExtendedKeyUsage;
import org.bouncycastle.asn1.x509.Extension;
import org.bouncycastle.asn1.x509.GeneralName;
import org.bouncycastle.asn1.x509.GeneralNames;
import org.bouncycastle.asn1.x509.GeneralSubtree;
import org.bouncycastle.asn1.x509.KeyPurposeId;
import org.bouncycastle.asn1.x509.KeyUsage;
import org.bouncycastle.asn1.x509.NameConstraints;
import org.bouncycastle.asn1.x509.SubjectPublicKeyInfo;
import org.bouncycastle.cert.X509v3CertificateBuilder;
import org.bouncycastle.cert.jcajce.JcaX509CertificateConverter;
import org.bouncycastle.cert.jcajce.JcaX509ExtensionUtils;
import org.bouncycastle.operator.OperatorCreationException;
import org.bouncycastle.operator.jcajce.JcaContentSignerBuilder;

/**
 * A certificate authority for one machine. Whoever trusts it trusts it with little: it may vouch
 * for web servers only, makes no further authorities, and is held by name constraints (RFC 5280,
 * 4.2.1.10) to this machine's names and to addresses of local networks. Immutable.
 *
 * @param key its private key
 * @param certificate what phones are given
 */
record Authority(PrivateKey key, X509Certificate certificate) {

  private static final long YEARS = 10;

  /** Browsers take no more (CA/Browser Forum's Baseline Requirements, 6.3.2, before 2026). */
  private static final Duration SERVER_DAYS = Duration.ofDays(397).minusSeconds(1);

  /** Clocks of phones are late now and then. */
  private static final Duration EARLIER = Duration.ofDays(1);

  /** Never resolves (RFC 2606): a constraint without any name would allow every name. */
  private static final String NO_NAME = "tallyback.invalid";

  private static final SecureRandom RANDOM = new SecureRandom();

  /**
   * Makes one.
   *
   * @param names the names of the machine; may be none
   */
  static Authority make(List<String> names, Instant now) {
    KeyPair pair = newKeys();
    X500Name name = named(names.isEmpty() ? "Tallyback" : "Tallyback on " + names.get(0));
    Instant from = now.minus(EARLIER).truncatedTo(ChronoUnit.SECONDS);
    X509v3CertificateBuilder builder =
        builder(name, name, pair.getPublic(), from, from.plus(Duration.ofDays(365 * YEARS)));
    try {
      builder.addExtension(Extension.basicConstraints, true, new BasicConstraints(0));
      builder.addExtension(Extension.keyUsage, true, new KeyUsage(KeyUsage.keyCertSign));
      builder.addExtension(Extension.nameConstraints, true, limits(names));
      builder.addExtension(
          Extension.extendedKeyUsage, false, new ExtendedKeyUsage(KeyPurposeId.id_kp_serverAuth));
      builder.addExtension(
          Extension.subjectKeyIdentifier,
          false,
          new JcaX509ExtensionUtils().createSubjectKeyIdentifier(pair.getPublic()));
      return new Authority(pair.getPrivate(), signed(builder, pair.getPrivate()));
    } catch (IOException | GeneralSecurityException e) {
      throw new IllegalStateException("no certificate could be made", e);
    }
  }

  private static NameConstraints limits(List<String> names) {
    List<GeneralSubtree> allowed = new ArrayList<>();
    for (String each : names.isEmpty() ? List.of(NO_NAME) : names) {
      allowed.add(new GeneralSubtree(new GeneralName(GeneralName.dNSName, each)));
    }
    for (LocalNets.Block block : LocalNets.blocks()) {
      byte[] base = block.base().getAddress();
      byte[] both = java.util.Arrays.copyOf(base, 2 * base.length);
      System.arraycopy(block.mask(), 0, both, base.length, base.length);
      allowed.add(
          new GeneralSubtree(new GeneralName(GeneralName.iPAddress, new DEROctetString(both))));
    }
    return new NameConstraints(allowed.toArray(new GeneralSubtree[0]), null);
  }

  /** A new pair of keys: NIST P-256, which every phone takes. */
  static KeyPair newKeys() {
    try {
      KeyPairGenerator generator = KeyPairGenerator.getInstance("EC");
      generator.initialize(new ECGenParameterSpec("secp256r1"), RANDOM);
      return generator.generateKeyPair();
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("this Java has no P-256", e);
    }
  }

  /**
   * Vouches for a web server, for 397 days or as long as the authority itself lasts.
   *
   * @param subject the server's public key
   * @param addresses under which it is reached
   * @param names likewise; the constraints allow no others than those it was made with
   */
  X509Certificate issue(
      PublicKey subject, List<InetAddress> addresses, List<String> names, Instant now) {
    Instant from = now.minus(EARLIER).truncatedTo(ChronoUnit.SECONDS);
    Instant to = from.plus(SERVER_DAYS);
    Instant last = certificate.getNotAfter().toInstant();
    X500Name issuer = X500Name.getInstance(certificate.getSubjectX500Principal().getEncoded());
    X509v3CertificateBuilder builder =
        builder(issuer, named("Tallyback page"), subject, from, to.isBefore(last) ? to : last);
    List<GeneralName> alternatives = new ArrayList<>();
    for (InetAddress each : addresses) {
      alternatives.add(
          new GeneralName(GeneralName.iPAddress, new DEROctetString(each.getAddress())));
    }
    for (String each : names) {
      alternatives.add(new GeneralName(GeneralName.dNSName, each));
    }
    try {
      JcaX509ExtensionUtils utils = new JcaX509ExtensionUtils();
      builder.addExtension(Extension.basicConstraints, true, new BasicConstraints(false));
      builder.addExtension(Extension.keyUsage, true, new KeyUsage(KeyUsage.digitalSignature));
      builder.addExtension(
          Extension.extendedKeyUsage, false, new ExtendedKeyUsage(KeyPurposeId.id_kp_serverAuth));
      builder.addExtension(
          Extension.subjectAlternativeName,
          false,
          new GeneralNames(alternatives.toArray(new GeneralName[0])));
      builder.addExtension(
          Extension.authorityKeyIdentifier,
          false,
          utils.createAuthorityKeyIdentifier(certificate.getPublicKey()));
      builder.addExtension(
          Extension.subjectKeyIdentifier, false, utils.createSubjectKeyIdentifier(subject));
      return signed(builder, key);
    } catch (IOException | GeneralSecurityException e) {
      throw new IllegalStateException("no certificate could be made", e);
    }
  }

  private static X500Name named(String name) {
    return new X500NameBuilder(BCStyle.INSTANCE).addRDN(BCStyle.CN, name).build();
  }

  private static X509v3CertificateBuilder builder(
      X500Name issuer, X500Name subject, PublicKey key, Instant from, Instant to) {
    return new X509v3CertificateBuilder(
        issuer,
        new BigInteger(127, RANDOM).setBit(126),
        Date.from(from),
        Date.from(to),
        Locale.ROOT,
        subject,
        SubjectPublicKeyInfo.getInstance(key.getEncoded()));
  }

  private static X509Certificate signed(X509v3CertificateBuilder builder, PrivateKey key)
      throws GeneralSecurityException {
    try {
      return new JcaX509CertificateConverter()
          .getCertificate(builder.build(new JcaContentSignerBuilder("SHA256withECDSA").build(key)));
    } catch (OperatorCreationException e) {
      throw new GeneralSecurityException(e);
    }
  }

  /** SHA-256 of the certificate as phones show it: pairs of hex digits, colons between. */
  String fingerprint() {
    try {
      return HexFormat.ofDelimiter(":")
          .withUpperCase()
          .formatHex(MessageDigest.getInstance("SHA-256").digest(certificate.getEncoded()));
    } catch (GeneralSecurityException e) {
      throw new UncheckedIOException(new IOException(e));
    }
  }

  /** The names in its constraints that there can be. */
  static Set<String> namesIn(X509Certificate certificate) {
    byte[] extension = certificate.getExtensionValue(Extension.nameConstraints.getId());
    Set<String> names = new LinkedHashSet<>();
    if (extension != null) {
      NameConstraints limits =
          NameConstraints.getInstance(ASN1OctetString.getInstance(extension).getOctets());
      for (GeneralSubtree each : limits.getPermittedSubtrees()) {
        if (each.getBase().getTagNo() == GeneralName.dNSName) {
          names.add(String.valueOf(each.getBase().getName()));
        }
      }
    }
    names.remove(NO_NAME);
    return names;
  }

  /** The name of whom a certificate is for. */
  static String nameOf(X509Certificate certificate) {
    return IETFUtils.valueToString(
        X500Name.getInstance(certificate.getSubjectX500Principal().getEncoded())
            .getRDNs(BCStyle.CN)[0]
            .getFirst()
            .getValue());
  }

  /** Whether a private key belongs to a certificate: what one signs the other must confirm. */
  static boolean fit(PrivateKey key, X509Certificate certificate) throws GeneralSecurityException {
    byte[] any = certificate.getSerialNumber().toByteArray();
    Signature signer = Signature.getInstance("SHA256withECDSA");
    signer.initSign(key);
    signer.update(any);
    byte[] signature = signer.sign();
    // The bare key: what the certificate allows it to be used for is another matter.
    signer.initVerify(certificate.getPublicKey());
    signer.update(any);
    return signer.verify(signature);
  }
}
