//! Addresses that a drawing may lead to.

/// An address on the same server: a path, a query or a fragment.
///
/// ```
/// use grounds_draw::Link;
/// assert!(Link::new("/why/412").is_some());
/// assert!(Link::new("//elsewhere/x").is_none());
/// assert!(Link::new("javascript:alert(1)").is_none());
/// ```
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Link(String);

impl Link {
    /// Takes an address that begins with one `/`, with `?` or with `#`; anything else would leave the server or run a
    /// script and is refused with `None`.
    #[must_use]
    pub fn new(address: &str) -> Option<Self> {
        let here = match address.as_bytes() {
            [b'/', b'/' | b'\\', ..] => false,
            [b'/' | b'?' | b'#', ..] => true,
            _ => false,
        };
        let plain = !address.chars().any(|c| c.is_control() || c == '\\');
        (here && plain).then(|| Self(address.to_owned()))
    }

    /// The address as text, not yet escaped.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}
