//! What a server is started with.

use std::{
    net::{IpAddr, SocketAddr},
    path::PathBuf,
};

use crate::demo;

/// Where pages are served when nothing else is said.
pub const LISTEN: &str = "127.0.0.1:4180";

/// Where phones are served when nothing else is said: at every address of this machine.
pub const LISTEN_TO_PHONES: &str = "0.0.0.0:4443";

/// What a server is started with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Config {
    /// The address to listen on, `127.0.0.1:4180`. Port 0 takes any free one.
    pub listen: String,
    /// The folder that jobs and notes are kept in; without one, a folder of the user's own.
    pub data: Option<PathBuf>,
    /// Serve the demo house, on its own day.
    pub demo: bool,
    /// The door for phones; without it, only this machine is served.
    pub phones: Option<PhonesDoor>,
}

/// A door for phones that have joined, with TLS.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PhonesDoor {
    /// The address to listen on, `0.0.0.0:4443`. Port 0 takes any free one.
    pub listen: String,
    /// A certificate of the user's own; without it, one is made.
    pub certificate: Option<GivenCertificate>,
}

/// A certificate and its key, in PEM.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GivenCertificate {
    /// The certificate of the door, followed by those that vouch for it.
    pub certificate: PathBuf,
    /// Its key.
    pub key: PathBuf,
}

impl Default for Config {
    fn default() -> Self {
        Self {
            listen: LISTEN.to_owned(),
            data: None,
            demo: false,
            phones: None,
        }
    }
}

/// Why a server did not start, or stopped.
#[derive(Debug, thiserror::Error)]
pub enum ServeError {
    /// The address cannot be read.
    #[error("{0:?} is no address: write one like {LISTEN}")]
    Address(String),
    /// Other machines could reach the address.
    #[error(
        "{0} can be reached from other machines, and whoever comes through this door may do \
         everything: let it listen on this machine only, for example {LISTEN}, and open another \
         for phones with --phones {LISTEN_TO_PHONES}"
    )]
    NotThisMachine(SocketAddr),
    /// The address is taken, or may not be used.
    #[error("cannot listen on {0}: {1}; try another port, for example --listen 127.0.0.1:4181")]
    Listen(SocketAddr, std::io::Error),
    /// The address for phones cannot be read.
    #[error("{0:?} is no address for phones: write one like {LISTEN_TO_PHONES}")]
    PhonesAddress(String),
    /// No certificate is made for an address that the whole net can reach.
    #[error(
        "{0} is no address of a private network, and no certificate is made for any other: listen on \
         {LISTEN_TO_PHONES}, or give a certificate with --certificate and --key"
    )]
    NotPrivate(IpAddr),
    /// The address for phones is taken, or may not be used.
    #[error(
        "cannot listen for phones on {0}: {1}; try another port, for example --phones 0.0.0.0:4444"
    )]
    ListenToPhones(SocketAddr, std::io::Error),
    /// A file of the certificate is not as it should be.
    #[error("{path} {why}; {mend}")]
    Certificate {
        /// Which.
        path: PathBuf,
        /// What is wrong with it.
        why: String,
        /// How to mend it.
        mend: &'static str,
    },
    /// No certificate could be made.
    #[error("no certificate could be made for phones: {0}")]
    NoCertificate(String),
    /// The data cannot be opened.
    #[error("{0}")]
    Data(#[from] grounds_store::StoreError),
    /// The server broke off.
    #[error("the server stopped: {0}")]
    Stopped(#[from] std::io::Error),
}

impl Config {
    /// The folder that jobs are kept in: the one that is named, or else one of the demo's or of the
    /// user's own.
    #[must_use]
    pub fn folder(&self) -> PathBuf {
        match &self.data {
            Some(folder) => folder.clone(),
            None if self.demo => demo::folder(),
            None => own_folder(),
        }
    }

    /// The address to listen on, refused unless it is of this machine alone.
    ///
    /// # Errors
    /// When it cannot be read, or other machines could reach it.
    pub fn address(&self) -> Result<SocketAddr, ServeError> {
        let text = self.listen.trim();
        let text = text
            .strip_prefix("localhost:")
            .map(|port| format!("127.0.0.1:{port}"));
        let text = text.as_deref().unwrap_or(self.listen.trim());
        let address: SocketAddr = text
            .parse()
            .map_err(|_| ServeError::Address(self.listen.clone()))?;
        if address.ip().is_loopback() {
            Ok(address)
        } else {
            Err(ServeError::NotThisMachine(address))
        }
    }
}

impl PhonesDoor {
    /// The address to listen on.
    ///
    /// # Errors
    /// When it cannot be read.
    pub fn address(&self) -> Result<SocketAddr, ServeError> {
        let text = self.listen.trim();
        let wrong = || ServeError::PhonesAddress(self.listen.chars().take(100).collect());
        text.parse().map_err(|_| wrong())
    }
}

/// Where a user's own jobs are kept, by the XDG base directory specification.
fn own_folder() -> PathBuf {
    let own = std::env::var_os("XDG_DATA_HOME")
        .map(PathBuf::from)
        .or_else(|| std::env::var_os("HOME").map(|home| PathBuf::from(home).join(".local/share")));
    own.filter(|path| path.is_absolute())
        .unwrap_or_else(std::env::temp_dir)
        .join("grounds")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn listen(on: &str) -> Result<SocketAddr, ServeError> {
        Config {
            listen: on.to_owned(),
            ..Config::default()
        }
        .address()
    }

    #[test]
    fn only_this_machine_is_served() {
        for good in ["127.0.0.1:4180", "localhost:0", "[::1]:80", " 127.1.2.3:9 "] {
            assert!(
                listen(good).is_ok_and(|address| address.ip().is_loopback()),
                "{good}"
            );
        }
        for open in ["0.0.0.0:4180", "[::]:4180", "192.168.1.20:80"] {
            assert!(
                matches!(listen(open), Err(ServeError::NotThisMachine(_))),
                "{open}"
            );
        }
        for bad in ["", "4180", "house:4180", "127.0.0.1", "127.0.0.1:99999"] {
            assert!(matches!(listen(bad), Err(ServeError::Address(_))), "{bad}");
        }
    }
}
