//! At which addresses this machine can be reached in its own network.

use std::net::{IpAddr, Ipv4Addr, Ipv6Addr, UdpSocket};

/// The machine's own name, where it has a plain one.
pub(super) fn host_name() -> Option<String> {
    let told = std::fs::read_to_string("/proc/sys/kernel/hostname")
        .ok()
        .or_else(|| std::env::var("HOSTNAME").ok())
        .or_else(|| std::env::var("COMPUTERNAME").ok())?;
    let name = told.trim().split('.').next()?.to_ascii_lowercase();
    let is_plain = |c: char| c.is_ascii_alphanumeric() || c == '-';
    let fits = (1..=63).contains(&name.len()) && !name.starts_with('-') && !name.ends_with('-');
    (fits && name.chars().all(is_plain)).then_some(name)
}

/// The addresses at which a door at `bound` can be reached from the same network: first the one by
/// which this machine reaches others, then version 4, then version 6.
pub(super) fn reached_at(bound: IpAddr) -> Vec<IpAddr> {
    if !bound.is_unspecified() {
        return vec![bound];
    }
    let mut found: Vec<IpAddr> = if_addrs::get_if_addrs()
        .unwrap_or_default()
        .iter()
        .map(if_addrs::Interface::ip)
        .filter(|ip| bound.is_ipv6() || ip.is_ipv4())
        .filter(|ip| !ip.is_loopback() && is_private(*ip))
        .collect();
    let first = way_out();
    found.sort_by_key(|ip| (Some(*ip) != first, *ip));
    found.dedup();
    found
}

/// The address by which this machine reaches others. A socket that is only told whom it would speak
/// to sends nothing; the address is one that is kept for examples (RFC 5737).
fn way_out() -> Option<IpAddr> {
    let socket = UdpSocket::bind((Ipv4Addr::UNSPECIFIED, 0)).ok()?;
    socket.connect((Ipv4Addr::new(192, 0, 2, 1), 9)).ok()?;
    Some(socket.local_addr().ok()?.ip())
}

/// Whether an address is of a private network, or of this machine alone: RFC 1918 and 6598, and
/// RFC 4193 for version 6.
pub(super) fn is_private(ip: IpAddr) -> bool {
    match ip.to_canonical() {
        IpAddr::V4(four) => {
            let [a, b, ..] = four.octets();
            four.is_private() || four.is_loopback() || (a == 100 && (64..128).contains(&b))
        }
        IpAddr::V6(six) => six == Ipv6Addr::LOCALHOST || (six.segments()[0] & 0xfe00) == 0xfc00,
    }
}

/// An address as it stands in a link.
pub(super) fn in_link(ip: IpAddr) -> String {
    match ip {
        IpAddr::V4(four) => four.to_string(),
        IpAddr::V6(six) => format!("[{six}]"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_address_of_the_whole_net_is_not_private() {
        for private in [
            "192.168.1.20",
            "10.0.0.1",
            "172.16.0.1",
            "100.64.0.1",
            "127.0.0.1",
            "fd00::1",
            "::1",
        ] {
            assert!(is_private(private.parse().unwrap()), "{private}");
        }
        for open in [
            "203.0.113.7",
            "172.32.0.1",
            "100.128.0.1",
            "2001:db8::1",
            "fe80::1",
        ] {
            assert!(!is_private(open.parse().unwrap()), "{open}");
        }
    }
}
