//! Starting and stopping.

use std::{sync::Arc, time::Duration};

use axum::Router;
use grounds_store::Store;
use tokio::net::TcpListener;

use crate::{
    config::{Config, ServeError},
    demo,
    desks::Desks,
    routes,
};

/// How often the plans are looked over: they follow the time by the quarter of an hour.
const LOOK_OVER: Duration = Duration::from_secs(20);

/// Serves pages until the process is told to stop, and prints their address on standard output
/// once it answers.
///
/// # Errors
/// When the address is refused or taken, or the data cannot be opened.
pub fn serve(config: Config) -> Result<(), ServeError> {
    let address = config.address()?;
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .enable_all()
        .build()?;
    runtime.block_on(async move {
        let listener = TcpListener::bind(address)
            .await
            .map_err(|error| ServeError::Listen(address, error))?;
        let desks = desks(&config).await?;
        let router = routes::router(desks.clone());
        println!("Grounds is at http://{}/", listener.local_addr()?);
        let watch = tokio::spawn(look_over(desks));
        axum::serve(listener, router)
            .with_graceful_shutdown(told_to_stop())
            .await?;
        watch.abort();
        Ok(())
    })
}

/// Everything that a server answers, without the server: for whoever brings their own.
///
/// # Errors
/// When the data cannot be opened.
pub async fn pages(config: &Config) -> Result<Router, ServeError> {
    Ok(routes::router(desks(config).await?))
}

async fn desks(config: &Config) -> Result<Arc<Desks>, ServeError> {
    let store = Store::open(&config.folder()).await?;
    if !config.demo {
        return Ok(Arc::new(Desks::new(store, None, None)));
    }
    demo::move_in(&store).await?;
    let desks = Desks::new(store, Some(demo::FRONT.to_owned()), Some(demo::morning));
    Ok(Arc::new(desks))
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
