//! What a phone proves itself with: a secret of 256 bits in a cookie that only this door gets.

use axum::http::{HeaderMap, header};
use ring::{
    digest::{SHA256, digest},
    rand::{SecureRandom, SystemRandom},
};
use subtle::ConstantTimeEq;
use uuid::Uuid;

use crate::fault::Fault;

/// The cookie. By its prefix (RFC 6265bis) a browser takes it over TLS only, from this host only.
const COOKIE: &str = "__Host-phone";

/// A phone's secret, as it stands in the cookie.
#[derive(Debug)]
pub(super) struct Secret(String);

impl Secret {
    /// A new one.
    pub(super) fn new() -> Result<Self, Fault> {
        let bytes: [u8; 32] = random()?;
        Ok(Self(hex(&bytes)))
    }

    /// Its hash, which is what is kept of it.
    pub(super) fn hash(&self) -> String {
        hex(&hash_of(&self.0))
    }

    /// Whether a hash that is kept is of this secret. Takes the same time, however near it is.
    pub(super) fn is_of(&self, kept: &str) -> bool {
        self.hash().as_bytes().ct_eq(kept.as_bytes()).into()
    }

    /// The cookie for a phone of that id.
    pub(super) fn cookie(&self, id: Uuid) -> String {
        format!(
            "{COOKIE}={id}.{}; Path=/; Max-Age=31536000; Secure; HttpOnly; SameSite=Strict",
            self.0
        )
    }
}

/// The phone's id and secret, where a request bears them.
pub(super) fn in_cookies(headers: &HeaderMap) -> Option<(Uuid, Secret)> {
    let cookies = headers.get_all(header::COOKIE).iter();
    let proof = cookies
        .filter_map(|value| value.to_str().ok())
        .flat_map(|line| line.split(';'))
        .filter_map(|pair| pair.trim().split_once('='))
        .find_map(|(name, value)| (name == COOKIE).then_some(value))?;
    let (id, secret) = proof.split_once('.')?;
    let is_hex = secret.len() == 64 && secret.bytes().all(|c| c.is_ascii_hexdigit());
    is_hex.then_some((id.parse().ok()?, Secret(secret.to_owned())))
}

/// The SHA-256 of a text.
pub(super) fn hash_of(text: &str) -> [u8; 32] {
    let mut hash = [0; 32];
    hash.copy_from_slice(digest(&SHA256, text.as_bytes()).as_ref());
    hash
}

/// Bytes that nobody can guess.
pub(super) fn random<const N: usize>() -> Result<[u8; N], Fault> {
    let mut bytes = [0; N];
    SystemRandom::new()
        .fill(&mut bytes)
        .map_err(|_| Fault::Broke("the system gave no random numbers".to_owned()))?;
    Ok(bytes)
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_secret_is_known_by_its_hash_alone() {
        let (secret, other) = (Secret::new().unwrap(), Secret::new().unwrap());
        assert!(secret.is_of(&secret.hash()) && !secret.is_of(&other.hash()));
        assert!(!secret.is_of("") && !secret.is_of(&secret.0));
    }

    #[test]
    fn a_phone_is_known_by_its_cookie_and_by_nothing_like_it() {
        let (secret, id) = (Secret::new().unwrap(), Uuid::from_u128(7));
        let cookie = secret.cookie(id);
        for part in ["Secure", "HttpOnly", "SameSite=Strict", "Path=/"] {
            assert!(cookie.contains(part), "{part}");
        }
        let pair = cookie.split(';').next().unwrap();
        let mut headers = HeaderMap::new();
        headers.append(
            header::COOKIE,
            format!("theme=dark; {pair}").parse().unwrap(),
        );
        let (found, read) = in_cookies(&headers).unwrap();
        assert!(found == id && read.is_of(&secret.hash()));
        for bad in [
            "phone=x.y",
            "__Host-phone=",
            "__Host-phone=7",
            "__Host-phone=00000000-0000-0000-0000-000000000007.short",
            "__Host-phone=nobody.0000000000000000000000000000000000000000000000000000000000000000",
        ] {
            let mut headers = HeaderMap::new();
            headers.append(header::COOKIE, bad.parse().unwrap());
            assert!(in_cookies(&headers).is_none(), "{bad}");
        }
    }
}
