//! Starting and stopping.

use std::{net::SocketAddr, sync::Arc, time::Duration};

use axum::Router;
use grounds_store::Store;
use tokio::{net::TcpListener, sync::watch, task::JoinSet, time::timeout};

use crate::{
    config::{Config, PhonesDoor, ServeError},
    demo,
    desks::Desks,
    phones::{Certificate, Peer, Phones, SecureListener},
    routes,
};

/// How often the plans are looked over: they follow the time by the quarter of an hour.
const LOOK_OVER: Duration = Duration::from_secs(20);

/// How often it is looked whether the phones' certificate is due, or addresses have changed.
const RENEW: Duration = Duration::from_secs(60);

/// How long a request may go on after the server was told to stop.
const LAST: Duration = Duration::from_secs(10);

/// Serves pages until the process is told to stop, and prints their addresses on standard output
/// once they answer.
///
/// # Errors
/// When an address is refused or taken, the certificate cannot be used, or the data cannot be
/// opened.
pub fn serve(config: Config) -> Result<(), ServeError> {
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .enable_all()
        .build()?;
    runtime.block_on(async move {
        let doors = Doors::open(&config).await?;
        println!("Grounds is at http://{}/", doors.desk_address());
        for url in doors.phones_urls() {
            println!("Phones join at {url}/join");
        }
        doors.serve(told_to_stop()).await
    })
}

/// Everything that the desk's door answers, without the server: for whoever brings their own.
///
/// # Errors
/// When the data cannot be opened.
pub async fn pages(config: &Config) -> Result<Router, ServeError> {
    let store = Store::open(&config.folder()).await?;
    Ok(routes::desk_door(desks(config, store, None).await?))
}

/// The doors of a server, open but not yet answering.
pub struct Doors {
    desk: TcpListener,
    desk_address: SocketAddr,
    phones: Option<(SecureListener, Arc<Phones>)>,
    desks: Arc<Desks>,
}

impl Doors {
    /// Opens the data and the doors.
    ///
    /// # Errors
    /// When an address is refused or taken, the certificate cannot be used, or the data cannot be
    /// opened.
    pub async fn open(config: &Config) -> Result<Self, ServeError> {
        let address = config.address()?;
        let desk = TcpListener::bind(address)
            .await
            .map_err(|error| ServeError::Listen(address, error))?;
        let store = Store::open(&config.folder()).await?;
        let phones = match &config.phones {
            Some(door) => Some(open_to_phones(door, &store).await?),
            None => None,
        };
        let known = phones.as_ref().map(|(_, phones)| phones.clone());
        Ok(Self {
            desk_address: desk.local_addr()?,
            desk,
            phones,
            desks: desks(config, store, known).await?,
        })
    }

    /// The address of the desk's door.
    #[must_use]
    pub fn desk_address(&self) -> SocketAddr {
        self.desk_address
    }

    /// The addresses of the phones' door as phones write them; none where there is no such door.
    #[must_use]
    pub fn phones_urls(&self) -> Vec<String> {
        let phones = self.phones.as_ref();
        phones.map_or_else(Vec::new, |(_, phones)| phones.urls())
    }

    /// Answers until `stop` is over.
    ///
    /// # Errors
    /// When a door breaks.
    pub async fn serve(self, stop: impl Future<Output = ()> + Send) -> Result<(), ServeError> {
        let (tell, told) = watch::channel(false);
        let mut tasks = JoinSet::new();
        let watch = tokio::spawn(look_over(self.desks.clone()));
        let router = routes::desk_door(self.desks.clone());
        let desk = axum::serve(self.desk, router).with_graceful_shutdown(until(told.clone()));
        tasks.spawn(async move { desk.await });
        let mut renewing = None;
        if let Some((listener, phones)) = self.phones {
            renewing = Some(tokio::spawn(renew(phones.clone())));
            let router = routes::phones_door(self.desks, phones);
            let service = router.into_make_service_with_connect_info::<Peer>();
            let door = axum::serve(listener, service).with_graceful_shutdown(until(told));
            tasks.spawn(async move { door.await });
        }
        let ended = tokio::select! {
            () = stop => None,
            ended = tasks.join_next() => ended,
        };
        tell.send_replace(true);
        let _ = timeout(LAST, async { while tasks.join_next().await.is_some() {} }).await;
        watch.abort();
        if let Some(renewing) = renewing {
            renewing.abort();
        }
        match ended {
            Some(Ok(ended)) => Ok(ended?),
            Some(Err(error)) => Err(ServeError::Stopped(std::io::Error::other(error))),
            None => Ok(()),
        }
    }
}

async fn open_to_phones(
    door: &PhonesDoor,
    store: &Store,
) -> Result<(SecureListener, Arc<Phones>), ServeError> {
    let address = door.address()?;
    let certificate = Arc::new(match &door.certificate {
        Some(files) => Certificate::given(files)?,
        None => Certificate::made(store.folder(), address.ip())?,
    });
    let listener = TcpListener::bind(address)
        .await
        .map_err(|error| ServeError::ListenToPhones(address, error))?;
    let address = listener.local_addr()?;
    let listener = SecureListener::open(listener, certificate.config()?)?;
    let phones = Phones::new(store.clone(), address, certificate);
    Ok((listener, Arc::new(phones)))
}

async fn until(mut told: watch::Receiver<bool>) {
    let _ = told.wait_for(|told| *told).await;
}

/// Renews what the phones' door proves itself with. Where that fails, it is tried again.
async fn renew(phones: Arc<Phones>) {
    loop {
        tokio::time::sleep(RENEW).await;
        let phones = phones.clone();
        let renewed = tokio::task::spawn_blocking(move || phones.certificate.renew()).await;
        if let Ok(Err(error)) = renewed {
            eprintln!("The certificate for phones stays as it is: {error}");
        }
    }
}

async fn desks(
    config: &Config,
    store: Store,
    phones: Option<Arc<Phones>>,
) -> Result<Arc<Desks>, ServeError> {
    if !config.demo {
        return Ok(Arc::new(Desks::new(store, None, None, phones)));
    }
    demo::move_in(&store).await?;
    let front = Some(demo::FRONT.to_owned());
    Ok(Arc::new(Desks::new(
        store,
        front,
        Some(demo::morning),
        phones,
    )))
}

async fn look_over(desks: Arc<Desks>) {
    loop {
        tokio::time::sleep(LOOK_OVER).await;
        desks.keep_up().await;
    }
}

/// Ends when the user presses Ctrl-C, or the system asks the process to end.
async fn told_to_stop() {
    let key = tokio::signal::ctrl_c();
    #[cfg(unix)]
    {
        use tokio::signal::unix::{SignalKind, signal};
        if let Ok(mut term) = signal(SignalKind::terminate()) {
            tokio::select! {
                _ = key => {}
                _ = term.recv() => {}
            }
            return;
        }
    }
    let _ = key.await;
}
