package tallyback.web.lan;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Which addresses nobody on the Internet reaches, and how an address is written in a URL. */
class LocalNetsTest {

  @ParameterizedTest
  @CsvSource({
    "10.0.0.1,true",
    "9.255.255.255,false",
    "11.0.0.0,false",
    "100.63.255.255,false",
    "100.64.0.1,true",
    "127.0.0.1,true",
    "169.254.7.7,true",
    "172.15.255.255,false",
    "172.16.0.1,true",
    "172.31.255.255,true",
    "172.32.0.1,false",
    "192.168.1.20,true",
    "192.169.0.1,false",
    "8.8.8.8,false",
    "::1,true",
    "::2,false",
    "fd00::2,true",
    "fe80::1,true",
    "fec0::1,false",
    "2001:db9::1,false",
  })
  void addressesOfLocalNetworks(String address, boolean local) {
    assertEquals(local, LocalNets.hold(LocalNets.literal(address)));
  }

  /** Left: as anybody may write it; right: as a browser does (RFC 5952, 4). */
  @ParameterizedTest
  @CsvSource({
    "192.168.1.20,192.168.1.20",
    "fd00:0:0:0:0:0:0:2,[fd00::2]",
    "FD00:0:0:1:0:0:0:2,[fd00:0:0:1::2]",
    "fd00:1:0:2:3:4:5:6,[fd00:1:0:2:3:4:5:6]",
    "fd00:0:0:1:0:0:2:3,[fd00::1:0:0:2:3]",
    "fd00:1:0:0:0:0:0:0,[fd00:1::]",
    "0:0:0:0:0:0:0:1,[::1]",
  })
  void hostsAsBrowsersWriteThem(String address, String host) {
    assertEquals(host, LocalNets.host(LocalNets.literal(address)));
  }
}
