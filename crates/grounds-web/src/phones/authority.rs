//! A small authority of this data folder, which vouches for the door to phones that were told to
//! trust it.
//!
//! A phone that trusts it trusts whoever holds its key. So it can vouch for addresses of private
//! networks only (by name constraints, RFC 5280 section 4.2.1.10): a key that was stolen is of no
//! use against any other site. What it vouches with is made anew at each start and lives in memory.

use std::{
    fs, io,
    io::Write,
    net::IpAddr,
    path::{Path, PathBuf},
};

use jiff::{Timestamp, ToSpan, civil::Date, tz::TimeZone};
use rcgen::{
    BasicConstraints, CertificateParams, CidrSubnet, DistinguishedName, DnType,
    ExtendedKeyUsagePurpose, GeneralSubtree, IsCa, Issuer, KeyPair, KeyUsagePurpose,
    NameConstraints, SanType, date_time_ymd,
};
use ring::digest::{SHA256, digest};
use rustls::{
    crypto::ring::default_provider,
    pki_types::{CertificateDer, PrivateKeyDer, PrivatePkcs8KeyDer, pem::PemObject},
    sign::CertifiedKey,
};

use crate::config::ServeError;

/// The folder in the data folder that the authority is kept in.
const FOLDER: &str = "phones";

/// Its certificate, with a first line that says when it ends.
const CERTIFICATE: &str = "authority.pem";

/// Its key. Only its owner may read it.
const KEY: &str = "authority.key";

/// What stands before the day on which it ends.
const ENDS: &str = "Ends ";

/// How many years it is good for. Every phone has to take in the next one by hand.
const YEARS: i64 = 10;

/// How many days what it vouches with is good for. Phones refuse more than 825.
const LEAF_DAYS: i64 = 90;

/// Where it can vouch: the private networks of RFC 1918, 6598 and 4193, and this machine.
const NETWORKS: [(&str, u8); 7] = [
    ("10.0.0.0", 8),
    ("172.16.0.0", 12),
    ("192.168.0.0", 16),
    ("100.64.0.0", 10),
    ("127.0.0.0", 8),
    ("fc00::", 7),
    ("::1", 128),
];

/// The names it can vouch for: this machine, and names of multicast DNS (RFC 6762).
const NAMES: [&str; 2] = ["localhost", "local"];

/// The authority of a data folder.
pub(super) struct Authority {
    issuer: Issuer<'static, KeyPair>,
    certificate: CertificateDer<'static>,
}

/// What it vouches with: a certificate with its key, and the day on which it is to be renewed.
pub(super) struct Leaf {
    pub(super) key: CertifiedKey,
    pub(super) renew: Date,
}

impl Authority {
    /// The authority of a data folder; made where there is none yet, or where it ends within a year.
    pub(super) fn of(data: &Path) -> Result<Self, ServeError> {
        let folder = data.join(FOLDER);
        match Self::read(&folder)? {
            Some(kept) => Ok(kept),
            None => Self::make(&folder),
        }
    }

    fn read(folder: &Path) -> Result<Option<Self>, ServeError> {
        let (certificate, key) = (folder.join(CERTIFICATE), folder.join(KEY));
        let (Some(pem), Some(key_pem)) = (text(&certificate)?, text(&key)?) else {
            return Ok(None);
        };
        let broken = || ServeError::Certificate {
            path: certificate.clone(),
            why: "is not what was written there".to_owned(),
            mend: "take away that file and the key beside it; phones then take in the new one",
        };
        let ends = pem.lines().find_map(|line| line.strip_prefix(ENDS));
        let ends: Date = ends
            .and_then(|day| day.trim().parse().ok())
            .ok_or_else(broken)?;
        if ends < in_days(365)? {
            return Ok(None);
        }
        keep_private(&key)?;
        let certificate = CertificateDer::from_pem_slice(pem.as_bytes()).map_err(|_| broken())?;
        let key = KeyPair::from_pem(&key_pem).map_err(|_| broken())?;
        Ok(Some(Self {
            issuer: Issuer::new(params(&key, ends)?, key),
            certificate,
        }))
    }

    fn make(folder: &Path) -> Result<Self, ServeError> {
        let key = KeyPair::generate().map_err(unmade)?;
        let ends = today()?.checked_add(YEARS.years()).map_err(unmade)?;
        let params = params(&key, ends)?;
        let certificate = params.self_signed(&key).map_err(unmade)?;
        make_private(folder).map_err(|error| unwritten(folder, &error))?;
        write(&folder.join(KEY), &key.serialize_pem())?;
        let pem = format!("{ENDS}{ends}\n{}", certificate.pem());
        write(&folder.join(CERTIFICATE), &pem)?;
        Ok(Self {
            certificate: certificate.der().clone(),
            issuer: Issuer::new(params, key),
        })
    }

    /// Its certificate, which phones take in.
    pub(super) fn certificate(&self) -> &[u8] {
        &self.certificate
    }

    /// The SHA-256 of its certificate, as phones and browsers show it.
    pub(super) fn fingerprint(&self) -> String {
        let hash = digest(&SHA256, &self.certificate);
        let pairs: Vec<String> = hash.as_ref().iter().map(|b| format!("{b:02X}")).collect();
        pairs.join(" ")
    }

    /// Vouches for addresses and names.
    pub(super) fn vouch(&self, ips: &[IpAddr], names: &[String]) -> Result<Leaf, ServeError> {
        let key = KeyPair::generate().map_err(unmade)?;
        let mut params = CertificateParams::default();
        params.distinguished_name = named("Grounds");
        good(&mut params, in_days(-1)?, in_days(LEAF_DAYS)?)?;
        params.use_authority_key_identifier_extension = true;
        params.key_usages = vec![KeyUsagePurpose::DigitalSignature];
        params.extended_key_usages = vec![ExtendedKeyUsagePurpose::ServerAuth];
        let ips = ips.iter().map(|ip| SanType::IpAddress(*ip));
        params.subject_alt_names = ips.collect();
        for name in names {
            let name = name.as_str().try_into().map_err(unmade)?;
            params.subject_alt_names.push(SanType::DnsName(name));
        }
        let certificate = params.signed_by(&key, &self.issuer).map_err(unmade)?;
        let chain = vec![certificate.der().clone(), self.certificate.clone()];
        let key = PrivateKeyDer::from(PrivatePkcs8KeyDer::from(key.serialize_der()));
        Ok(Leaf {
            key: CertifiedKey::from_der(chain, key, &default_provider()).map_err(unmade)?,
            renew: in_days(LEAF_DAYS / 2)?,
        })
    }
}

/// What the authority is. It must follow from its key and its end alone, so that what it vouches
/// for later bears its name.
fn params(key: &KeyPair, ends: Date) -> Result<CertificateParams, ServeError> {
    let mut params = CertificateParams::default();
    let id: String = params
        .key_identifier(key)
        .iter()
        .take(4)
        .map(|byte| format!("{byte:02x}"))
        .collect();
    params.distinguished_name = named(&format!("Grounds {id}"));
    params.is_ca = IsCa::Ca(BasicConstraints::Constrained(0));
    params.key_usages = vec![KeyUsagePurpose::KeyCertSign, KeyUsagePurpose::CrlSign];
    let begins = ends.checked_sub((YEARS + 1).years()).map_err(unmade)?;
    good(&mut params, begins, ends)?;
    let mut permitted = Vec::new();
    for (network, prefix) in NETWORKS {
        let network = network.parse().map_err(unmade)?;
        let subnet = CidrSubnet::from_addr_prefix(network, prefix);
        permitted.push(GeneralSubtree::IpAddress(subnet));
    }
    permitted.extend(NAMES.map(|name| GeneralSubtree::DnsName(name.to_owned())));
    params.name_constraints = Some(NameConstraints {
        permitted_subtrees: permitted,
        excluded_subtrees: Vec::new(),
    });
    Ok(params)
}

fn named(name: &str) -> DistinguishedName {
    let mut full = DistinguishedName::new();
    full.push(DnType::CommonName, name);
    full
}

/// Today, by the clock of this machine, in UTC.
pub(super) fn today() -> Result<Date, ServeError> {
    in_days(0)
}

fn in_days(days: i64) -> Result<Date, ServeError> {
    let today = Timestamp::now().to_zoned_datetime(TimeZone::UTC).date();
    today.checked_add(days.days()).map_err(unmade)
}

/// Year, month and day, as certificates say them.
fn parts(day: Date) -> Result<(i32, u8, u8), ServeError> {
    let part = |part: i8| u8::try_from(part).map_err(unmade);
    Ok((i32::from(day.year()), part(day.month())?, part(day.day())?))
}

/// Makes a certificate good from midnight of a day to midnight of another.
fn good(params: &mut CertificateParams, from: Date, to: Date) -> Result<(), ServeError> {
    let (year, month, day) = parts(from)?;
    params.not_before = date_time_ymd(year, month, day);
    let (year, month, day) = parts(to)?;
    params.not_after = date_time_ymd(year, month, day);
    Ok(())
}

fn unmade(error: impl std::fmt::Display) -> ServeError {
    ServeError::NoCertificate(error.to_string())
}

fn unwritten(path: &Path, error: &io::Error) -> ServeError {
    ServeError::Certificate {
        path: path.to_owned(),
        why: format!("cannot be written: {error}"),
        mend: "see that you may write to the data folder",
    }
}

/// A text file; nothing if there is none.
fn text(path: &PathBuf) -> Result<Option<String>, ServeError> {
    match fs::read_to_string(path) {
        Ok(text) => Ok(Some(text)),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(ServeError::Certificate {
            path: path.clone(),
            why: format!("cannot be read: {error}"),
            mend: "see that you may read it",
        }),
    }
}

/// Makes a folder that only its owner may look into.
fn make_private(folder: &Path) -> io::Result<()> {
    let mut maker = fs::DirBuilder::new();
    maker.recursive(true);
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut maker, 0o700);
    maker.create(folder)
}

/// Writes a file that only its owner may read, beside its place, and moves it there.
fn write(path: &Path, text: &str) -> Result<(), ServeError> {
    let beside = path.with_extension("new");
    let written = || -> io::Result<()> {
        match fs::remove_file(&beside) {
            Err(error) if error.kind() != io::ErrorKind::NotFound => return Err(error),
            _ => {}
        }
        let mut options = fs::OpenOptions::new();
        options.write(true).create_new(true);
        #[cfg(unix)]
        std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
        let mut file = options.open(&beside)?;
        file.write_all(text.as_bytes())?;
        file.sync_all()?;
        fs::rename(&beside, path)
    };
    written().map_err(|error| unwritten(path, &error))
}

/// Takes from others the right to read a key, where they got it.
fn keep_private(path: &Path) -> Result<(), ServeError> {
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        fs::set_permissions(path, fs::Permissions::from_mode(0o600))
            .map_err(|error| unwritten(path, &error))?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_authority_stays_the_same_and_its_key_is_private() {
        let data = tempfile::tempdir().unwrap();
        let made = Authority::of(data.path()).unwrap();
        let kept = Authority::of(data.path()).unwrap();
        assert_eq!(made.fingerprint(), kept.fingerprint());
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt;
            let key = fs::metadata(data.path().join("phones/authority.key")).unwrap();
            assert_eq!(key.permissions().mode() & 0o777, 0o600);
        }
    }

    #[test]
    fn an_authority_that_ends_soon_gives_way_to_the_next() {
        let data = tempfile::tempdir().unwrap();
        let first = Authority::of(data.path()).unwrap().fingerprint();
        let file = data.path().join("phones/authority.pem");
        let pem = fs::read_to_string(&file).unwrap();
        let (_, rest) = pem.split_once('\n').unwrap();
        fs::write(&file, format!("{ENDS}{}\n{rest}", in_days(30).unwrap())).unwrap();
        assert_ne!(Authority::of(data.path()).unwrap().fingerprint(), first);
    }

    #[test]
    fn what_is_no_authority_is_told_and_left_alone() {
        let data = tempfile::tempdir().unwrap();
        Authority::of(data.path()).unwrap();
        let file = data.path().join("phones/authority.pem");
        fs::write(&file, "nonsense").unwrap();
        let told = Authority::of(data.path()).err().unwrap().to_string();
        assert!(told.contains("authority.pem"), "{told}");
        assert_eq!(fs::read_to_string(&file).unwrap(), "nonsense");
    }
}
