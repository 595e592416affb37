package tarnish.controller.service;

import java.net.InetAddress;
import java.net.NetworkInterface;
import java.net.SocketException;
import java.util.Collections;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;

/** The names under which this service may be asked for: what else may stand in a Host header. */
final class HostNames {
  private static final int HTTP = 80;

  private HostNames() {}

  static Set<String> of(WebSettings settings, int port) {
    Set<String> names = new TreeSet<>();
    if (settings.isLocal()) {
      names.add("127.0.0.1");
      names.add("localhost");
    } else {
      names.add(settings.host());
      names.addAll(addresses());
    }
    Set<String> hosts = new TreeSet<>();
    for (String name : names) {
      String plain = bracketed(name.toLowerCase(Locale.ROOT));
      hosts.add(plain + ":" + port);
      if (port == HTTP) {
        hosts.add(plain);
      }
    }
    // Named by the person who set it up: a proxy may show it under any port.
    for (String name : settings.names()) {
      String plain = name.toLowerCase(Locale.ROOT);
      hosts.add(plain);
      hosts.add(plain + ":" + port);
    }
    return hosts;
  }

  private static String bracketed(String name) {
    return name.indexOf(':') >= 0 && !name.startsWith("[") ? "[" + name + "]" : name;
  }

  private static Set<String> addresses() {
    Set<String> addresses = new TreeSet<>();
    try {
      for (NetworkInterface each : Collections.list(NetworkInterface.getNetworkInterfaces())) {
        for (InetAddress address : Collections.list(each.getInetAddresses())) {
          addresses.add(address.getHostAddress().replaceFirst("%.*", ""));
        }
      }
    } catch (SocketException e) {
      // Then only the address that was asked for is known.
      return addresses;
    }
    return addresses;
  }
}
