/**
 * What lets a phone of the same network be the page: a certificate authority of our own, the
 * server's certificate, the code that pairs a device, and the list of paired devices. {@link
 * tallyback.web.lan.Lan} is the way in; it is the only place that sees the libraries for
 * certificates and for the square code.
 *
 * <p>All of it lies in one folder, readable by its owner only: {@code authority.crt}, {@code
 * authority.key}, {@code page.crt}, {@code page.key} (PEM) and {@code devices.json}.
 */
@org.jspecify.annotations.NullMarked
package tallyback.web.lan;
