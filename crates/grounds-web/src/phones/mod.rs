//! The phones' door: who may come through it, how a phone joins, and how it is shut out.

mod addresses;
mod authority;
mod certificate;
mod codes;
mod listener;
mod proof;
mod tries;
mod words;

use std::{
    collections::BTreeMap,
    fmt,
    net::{IpAddr, SocketAddr},
    sync::{Arc, Mutex, PoisonError},
    time::{Duration, Instant},
};

use axum::http::HeaderMap;
use grounds_store::{Person, Store};
use uuid::Uuid;

pub(crate) use certificate::Certificate;
pub(crate) use codes::{GOOD_FOR, Live};
pub(crate) use listener::{Peer, SecureListener};

use crate::fault::Fault;

/// How often it is written down that a phone was heard of.
const HEARD: Duration = Duration::from_secs(60);

/// The phones' door.
pub(crate) struct Phones {
    store: Store,
    /// Where the door is.
    address: SocketAddr,
    /// What the door proves itself with.
    pub(crate) certificate: Arc<Certificate>,
    codes: Mutex<codes::Codes>,
    tries: Mutex<tries::Tries>,
    /// When it was last written down that a phone was heard of.
    heard: Mutex<BTreeMap<Uuid, Instant>>,
}

impl fmt::Debug for Phones {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Phones")
            .field("address", &self.address)
            .finish_non_exhaustive()
    }
}

/// What a request through the phones' door proves.
#[derive(Debug)]
pub(crate) enum Proven {
    /// It comes from a phone that has joined.
    Joined(Arc<Person>),
    /// It comes from a phone that was shut out.
    ShutOut,
    /// Nothing.
    Nothing,
}

/// Why a phone may not join.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum NotJoined {
    /// No code of that kind is good now.
    WrongCode,
    /// Too many wrong codes came from there.
    TooMany,
}

/// A phone that has just joined.
#[derive(Debug)]
pub(crate) struct Joined {
    /// The job that the code was made for.
    pub(crate) job: String,
    /// The cookie that the phone is to keep.
    pub(crate) cookie: String,
}

impl Phones {
    /// A door at an address, with what it proves itself with.
    pub(crate) fn new(store: Store, address: SocketAddr, certificate: Arc<Certificate>) -> Self {
        Self {
            store,
            address,
            certificate,
            codes: Mutex::default(),
            tries: Mutex::default(),
            heard: Mutex::default(),
        }
    }

    /// The addresses at which phones reach the door, the likeliest first: `https://192.168.1.20:4443`.
    pub(crate) fn urls(&self) -> Vec<String> {
        let hosts = self.certificate.hosts(self.address.ip());
        let port = self.address.port();
        let url = |host: String| format!("https://{host}:{port}");
        hosts.into_iter().map(url).collect()
    }

    /// Makes a code with which one phone may join and begin at a job.
    pub(crate) fn make_code(&self, job: &str) -> Result<(), Fault> {
        let random = proof::random()?;
        lock(&self.codes).make(job, random, Instant::now());
        Ok(())
    }

    /// The codes for a job that are good now.
    pub(crate) fn live_codes(&self, job: &str) -> Vec<Live> {
        lock(&self.codes).live(job, Instant::now())
    }

    /// Lets a phone join by a code, under a name.
    pub(crate) async fn join(
        &self,
        from: IpAddr,
        code: &str,
        name: &str,
    ) -> Result<Result<Joined, NotJoined>, Fault> {
        let now = Instant::now();
        if !lock(&self.tries).may(from, now) {
            return Ok(Err(NotJoined::TooMany));
        }
        let Some(job) = lock(&self.codes).redeem(code, now) else {
            lock(&self.tries).failed(from, now);
            return Ok(Err(NotJoined::WrongCode));
        };
        let secret = proof::Secret::new()?;
        let person = self.store.add_person(name, &secret.hash()).await?;
        let cookie = secret.cookie(person.id);
        Ok(Ok(Joined { job, cookie }))
    }

    /// Who a request comes from.
    pub(crate) async fn proven(&self, headers: &HeaderMap) -> Result<Proven, Fault> {
        let Some((id, secret)) = proof::in_cookies(headers) else {
            return Ok(Proven::Nothing);
        };
        let Some(person) = self.store.person(id).await? else {
            return Ok(Proven::Nothing);
        };
        if !secret.is_of(&person.token) {
            return Ok(Proven::Nothing);
        }
        if person.revoked.is_some() {
            return Ok(Proven::ShutOut);
        }
        self.hear(person.id).await?;
        Ok(Proven::Joined(Arc::new(person)))
    }

    /// Writes down, now and then, that a phone was heard of.
    async fn hear(&self, id: Uuid) -> Result<(), Fault> {
        let now = Instant::now();
        let last = lock(&self.heard).get(&id).copied();
        if last.is_some_and(|last| now.duration_since(last) < HEARD) {
            return Ok(());
        }
        lock(&self.heard).insert(id, now);
        Ok(self.store.person_seen(id).await?)
    }
}

fn lock<T>(mutex: &Mutex<T>) -> std::sync::MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}
