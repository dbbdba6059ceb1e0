//! What the door proves itself with: a certificate that was given, or one that is made here.

use std::{
    net::IpAddr,
    path::PathBuf,
    sync::{Arc, PoisonError, RwLock},
};

use jiff::civil::Date;
use rustls::{
    ServerConfig,
    crypto::ring::default_provider,
    pki_types::{CertificateDer, PrivateKeyDer, ServerName, pem::PemObject},
    server::{ClientHello, ResolvesServerCert},
    sign::CertifiedKey,
};
use webpki::EndEntityCert;

use super::{
    addresses::{host_name, in_link, is_private, reached_at},
    authority::{Authority, today},
};
use crate::config::{GivenCertificate, ServeError};

/// What the door proves itself with. It is renewed while the door is open.
pub(crate) struct Certificate {
    source: Source,
    shown: RwLock<Arc<CertifiedKey>>,
}

enum Source {
    /// From files that somebody else looks after.
    Given(GivenCertificate),
    /// Made here.
    Made {
        authority: Box<Authority>,
        bound: IpAddr,
        made: RwLock<Made>,
    },
}

/// For what a certificate was made, and when the next is due.
struct Made {
    ips: Vec<IpAddr>,
    renew: Date,
}

impl std::fmt::Debug for Certificate {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Certificate").finish_non_exhaustive()
    }
}

impl ResolvesServerCert for Certificate {
    fn resolve(&self, _hello: ClientHello<'_>) -> Option<Arc<CertifiedKey>> {
        Some(self.shown())
    }
}

impl Certificate {
    /// A certificate from files.
    pub(crate) fn given(files: &GivenCertificate) -> Result<Self, ServeError> {
        Ok(Self {
            shown: RwLock::new(Arc::new(read(files)?)),
            source: Source::Given(files.clone()),
        })
    }

    /// A certificate that is made here, for the addresses of a door at `bound`.
    pub(crate) fn made(data: &std::path::Path, bound: IpAddr) -> Result<Self, ServeError> {
        if !bound.is_unspecified() && !is_private(bound) {
            return Err(ServeError::NotPrivate(bound));
        }
        let authority = Box::new(Authority::of(data)?);
        let ips = vouched(bound);
        let leaf = authority.vouch(&ips, &own_names())?;
        let made = RwLock::new(Made {
            ips,
            renew: leaf.renew,
        });
        Ok(Self {
            shown: RwLock::new(Arc::new(leaf.key)),
            source: Source::Made {
                authority,
                bound,
                made,
            },
        })
    }

    /// Renews what is due: a certificate that will end, addresses that changed, files that were
    /// written anew. Where that fails, the door goes on with what it has.
    pub(crate) fn renew(&self) -> Result<(), ServeError> {
        let next = match &self.source {
            Source::Given(files) => read(files)?,
            Source::Made {
                authority,
                bound,
                made,
            } => {
                let ips = vouched(*bound);
                let mut made = made.write().unwrap_or_else(PoisonError::into_inner);
                if made.ips == ips && today()? < made.renew {
                    return Ok(());
                }
                let leaf = authority.vouch(&ips, &own_names())?;
                *made = Made {
                    ips,
                    renew: leaf.renew,
                };
                leaf.key
            }
        };
        *self.shown.write().unwrap_or_else(PoisonError::into_inner) = Arc::new(next);
        Ok(())
    }

    /// How connections to the door are made: TLS 1.2 or 1.3.
    pub(crate) fn config(self: &Arc<Self>) -> Result<Arc<ServerConfig>, ServeError> {
        let mut config = ServerConfig::builder_with_provider(Arc::new(default_provider()))
            .with_safe_default_protocol_versions()
            .map_err(|error| ServeError::NoCertificate(error.to_string()))?
            .with_no_client_auth()
            .with_cert_resolver(self.clone());
        config.alpn_protocols = vec![b"http/1.1".to_vec()];
        Ok(Arc::new(config))
    }

    /// Whether it is for the host that a browser asked for.
    pub(crate) fn is_for(&self, host: &str) -> bool {
        let name = match host.rsplit_once(':') {
            Some((name, port)) if port.bytes().all(|byte| byte.is_ascii_digit()) => name,
            _ => host,
        };
        let bare = name
            .strip_prefix('[')
            .and_then(|name| name.strip_suffix(']'));
        let Ok(name) = ServerName::try_from(bare.unwrap_or(name)) else {
            return false;
        };
        let shown = self.shown();
        let Some(Ok(leaf)) = shown.cert.first().map(EndEntityCert::try_from) else {
            return false;
        };
        leaf.verify_is_valid_for_subject_name(&name).is_ok()
    }

    /// The hosts by which phones reach a door at `bound`, as they stand in links: those that the
    /// certificate is for.
    pub(super) fn hosts(&self, bound: IpAddr) -> Vec<String> {
        let mut hosts = match &self.source {
            Source::Given(_) => self.names(),
            Source::Made { .. } => Vec::new(),
        };
        hosts.extend(reached_at(bound).into_iter().map(in_link));
        if let (Source::Made { .. }, true) = (&self.source, bound.is_unspecified()) {
            hosts.extend(host_name().map(|name| format!("{name}.local")));
        }
        hosts.retain(|host| self.is_for(host));
        hosts
    }

    /// The names in it, but for patterns.
    fn names(&self) -> Vec<String> {
        let shown = self.shown();
        let Some(Ok(leaf)) = shown.cert.first().map(EndEntityCert::try_from) else {
            return Vec::new();
        };
        let names = leaf.valid_dns_names().map(str::to_owned);
        names.filter(|name| !name.contains('*')).collect()
    }

    /// The certificate of the authority that phones take in, and its fingerprint; nothing where the
    /// certificate was given.
    pub(crate) fn to_take_in(&self) -> Option<(&[u8], String)> {
        match &self.source {
            Source::Given(_) => None,
            Source::Made { authority, .. } => {
                Some((authority.certificate(), authority.fingerprint()))
            }
        }
    }

    fn shown(&self) -> Arc<CertifiedKey> {
        self.shown
            .read()
            .unwrap_or_else(PoisonError::into_inner)
            .clone()
    }
}

/// The addresses that a certificate is made for: where phones come, and this machine itself.
fn vouched(bound: IpAddr) -> Vec<IpAddr> {
    let mut ips = reached_at(bound);
    ips.push(IpAddr::from([127, 0, 0, 1]));
    ips.sort();
    ips.dedup();
    ips
}

/// The names that a certificate is made for.
fn own_names() -> Vec<String> {
    let mut names = vec!["localhost".to_owned()];
    names.extend(host_name().map(|name| format!("{name}.local")));
    names
}

fn read(files: &GivenCertificate) -> Result<CertifiedKey, ServeError> {
    let wrong = |path: &PathBuf, why: String| ServeError::Certificate {
        path: path.clone(),
        why,
        mend: "name a file in PEM, with the certificate of the door first, and the key that goes with it",
    };
    let file = &files.certificate;
    let chain = CertificateDer::pem_file_iter(file)
        .and_then(Iterator::collect::<Result<Vec<_>, _>>)
        .map_err(|error| wrong(file, format!("cannot be read: {error}")))?;
    if chain.is_empty() {
        return Err(wrong(file, "holds no certificate".to_owned()));
    }
    let key = PrivateKeyDer::from_pem_file(&files.key)
        .map_err(|error| wrong(&files.key, format!("cannot be read: {error}")))?;
    CertifiedKey::from_der(chain, key, &default_provider())
        .map_err(|error| wrong(file, format!("cannot be used with the key: {error}")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_certificate_is_for_the_addresses_of_this_machine_and_no_other() {
        let data = tempfile::tempdir().unwrap();
        let certificate = Certificate::made(data.path(), [192, 168, 7, 9].into()).unwrap();
        for good in ["192.168.7.9:4443", "127.0.0.1", "localhost:4443"] {
            assert!(certificate.is_for(good), "{good}");
        }
        for bad in [
            "",
            "192.168.7.10",
            "rebind.example",
            "[::1]:4443",
            "localhost.example",
            "a b",
        ] {
            assert!(!certificate.is_for(bad), "{bad}");
        }
        assert_eq!(certificate.hosts([192, 168, 7, 9].into()), ["192.168.7.9"]);
        assert!(certificate.renew().is_ok());
    }

    #[test]
    fn no_certificate_is_made_for_an_address_of_the_whole_net() {
        let data = tempfile::tempdir().unwrap();
        let refused = Certificate::made(data.path(), [203, 0, 113, 7].into()).unwrap_err();
        assert!(matches!(refused, ServeError::NotPrivate(_)), "{refused}");
    }

    #[test]
    fn files_that_are_no_certificate_are_told_by_name() {
        let data = tempfile::tempdir().unwrap();
        let [certificate, key] = ["door.pem", "door.key"].map(|name| data.path().join(name));
        std::fs::write(&certificate, "nothing").unwrap();
        let files = GivenCertificate { certificate, key };
        let told = Certificate::given(&files).unwrap_err().to_string();
        assert!(told.contains("door.pem") && told.contains("PEM"), "{told}");
    }
}
