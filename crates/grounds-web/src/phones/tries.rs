//! How often wrong codes came from an address.

use std::{
    collections::BTreeMap,
    net::IpAddr,
    time::{Duration, Instant},
};

/// How many wrong codes may come from one address within [`WITHIN`].
const MOST: u32 = 5;

/// How long a wrong code counts.
const WITHIN: Duration = Duration::from_secs(600);

/// How many addresses are remembered. When there are more, nobody may try until some have aged:
/// a phone in a house has one address, and thousands of them are an attack.
const MOST_ADDRESSES: usize = 4_096;

/// Wrong codes by the address that they came from.
#[derive(Default)]
pub(super) struct Tries {
    wrong: BTreeMap<IpAddr, (u32, Instant)>,
}

impl Tries {
    /// Whether a code may be tried from there.
    pub(super) fn may(&mut self, from: IpAddr, now: Instant) -> bool {
        self.wrong
            .retain(|_, (_, last)| now.duration_since(*last) < WITHIN);
        match self.wrong.get(&network(from)) {
            Some((many, _)) => *many < MOST,
            None => self.wrong.len() < MOST_ADDRESSES,
        }
    }

    /// A wrong code came from there.
    pub(super) fn failed(&mut self, from: IpAddr, now: Instant) {
        let entry = self.wrong.entry(network(from)).or_insert((0, now));
        entry.0 += 1;
        entry.1 = now;
    }
}

/// What counts as one address: of version 6, the network, in which a phone may take any address.
fn network(from: IpAddr) -> IpAddr {
    match from.to_canonical() {
        IpAddr::V4(four) => four.into(),
        IpAddr::V6(six) => {
            let [a, b, c, d, ..] = six.segments();
            std::net::Ipv6Addr::new(a, b, c, d, 0, 0, 0, 0).into()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn after_a_few_wrong_codes_an_address_has_to_wait() {
        let (mut tries, now) = (Tries::default(), Instant::now());
        let [phone, other] = [[192, 168, 1, 9], [192, 168, 1, 10]].map(IpAddr::from);
        for _ in 0..MOST {
            assert!(tries.may(phone, now));
            tries.failed(phone, now);
        }
        assert!(!tries.may(phone, now));
        assert!(tries.may(other, now));
        assert!(tries.may(phone, now + WITHIN));
    }

    #[test]
    fn another_address_of_the_same_network_of_version_6_is_no_way_around() {
        let (mut tries, now) = (Tries::default(), Instant::now());
        for last in 0..5 {
            tries.failed(format!("fd00::1:{last}").parse().unwrap(), now);
        }
        assert!(!tries.may("fd00::2:9".parse().unwrap(), now));
        assert!(tries.may("fd00:0:0:1::9".parse().unwrap(), now));
    }
}
