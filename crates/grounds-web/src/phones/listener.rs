//! The door itself: connections that have proved whom they speak to.
//!
//! Proving takes time that a stranger can draw out; it goes on beside the others, for ten seconds at
//! most, and only so many lines are open at once, in all and from one address.

use std::{
    collections::BTreeMap,
    io,
    net::{IpAddr, SocketAddr},
    pin::Pin,
    sync::{Arc, Mutex, PoisonError},
    task::{Context, Poll},
    time::Duration,
};

use axum::{
    extract::connect_info::Connected,
    serve::{IncomingStream, Listener},
};
use rustls::ServerConfig;
use tokio::{
    io::{AsyncRead, AsyncWrite, ReadBuf},
    net::{TcpListener, TcpStream},
    sync::mpsc,
    task::JoinHandle,
    time::{sleep, timeout},
};
use tokio_rustls::{TlsAcceptor, server::TlsStream};

/// How long proving may take.
const PROVING: Duration = Duration::from_secs(10);

/// How long the door waits when the system has no line for it.
const PAUSE: Duration = Duration::from_millis(200);

/// The most lines open at once.
const MOST: usize = 512;

/// The most lines open at once from one address.
const MOST_FROM_ONE: usize = 48;

/// Where a line comes from.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Peer(pub(crate) IpAddr);

/// The door.
pub(crate) struct SecureListener {
    address: SocketAddr,
    proved: mpsc::Receiver<(Line, SocketAddr)>,
    door: JoinHandle<()>,
}

/// An open line.
pub(crate) struct Line {
    stream: TlsStream<TcpStream>,
    _place: Place,
}

impl SecureListener {
    /// Opens the door behind a listener.
    pub(crate) fn open(listener: TcpListener, config: Arc<ServerConfig>) -> io::Result<Self> {
        let address = listener.local_addr()?;
        let (send, proved) = mpsc::channel(16);
        let door = tokio::spawn(accept(listener, TlsAcceptor::from(config), send));
        Ok(Self {
            address,
            proved,
            door,
        })
    }
}

impl Drop for SecureListener {
    fn drop(&mut self) {
        self.door.abort();
    }
}

impl Listener for SecureListener {
    type Io = Line;
    type Addr = SocketAddr;

    async fn accept(&mut self) -> (Line, SocketAddr) {
        match self.proved.recv().await {
            Some(line) => line,
            None => std::future::pending().await,
        }
    }

    fn local_addr(&self) -> io::Result<SocketAddr> {
        Ok(self.address)
    }
}

impl Connected<IncomingStream<'_, SecureListener>> for Peer {
    fn connect_info(line: IncomingStream<'_, SecureListener>) -> Self {
        Self(line.remote_addr().ip())
    }
}

async fn accept(
    listener: TcpListener,
    acceptor: TlsAcceptor,
    send: mpsc::Sender<(Line, SocketAddr)>,
) {
    let places = Arc::new(Places::default());
    loop {
        let Ok((stream, from)) = listener.accept().await else {
            sleep(PAUSE).await;
            continue;
        };
        // One too many is closed at once.
        let Some(place) = Places::take(&places, from.ip()) else {
            continue;
        };
        let (acceptor, send) = (acceptor.clone(), send.clone());
        tokio::spawn(async move {
            let _ = stream.set_nodelay(true);
            if let Ok(Ok(stream)) = timeout(PROVING, acceptor.accept(stream)).await {
                let line = Line {
                    stream,
                    _place: place,
                };
                let _ = send.send((line, from)).await;
            }
        });
    }
}

/// How many lines are open, by address.
#[derive(Debug, Default)]
struct Places {
    taken: Mutex<BTreeMap<IpAddr, usize>>,
}

/// A place for one line, given back when it is dropped.
#[derive(Debug)]
struct Place {
    places: Arc<Places>,
    from: IpAddr,
}

impl Places {
    fn take(places: &Arc<Self>, from: IpAddr) -> Option<Place> {
        let mut taken = places.taken.lock().unwrap_or_else(PoisonError::into_inner);
        let all: usize = taken.values().sum();
        let here = taken.get(&from).copied().unwrap_or(0);
        if all >= MOST || here >= MOST_FROM_ONE {
            return None;
        }
        taken.insert(from, here + 1);
        Some(Place {
            places: places.clone(),
            from,
        })
    }
}

impl Drop for Place {
    fn drop(&mut self) {
        let mut taken = self
            .places
            .taken
            .lock()
            .unwrap_or_else(PoisonError::into_inner);
        match taken.get_mut(&self.from) {
            Some(here) if *here > 1 => *here -= 1,
            _ => {
                taken.remove(&self.from);
            }
        }
    }
}

impl AsyncRead for Line {
    fn poll_read(
        mut self: Pin<&mut Self>,
        cx: &mut Context<'_>,
        buf: &mut ReadBuf<'_>,
    ) -> Poll<io::Result<()>> {
        Pin::new(&mut self.stream).poll_read(cx, buf)
    }
}

impl AsyncWrite for Line {
    fn poll_write(
        mut self: Pin<&mut Self>,
        cx: &mut Context<'_>,
        buf: &[u8],
    ) -> Poll<io::Result<usize>> {
        Pin::new(&mut self.stream).poll_write(cx, buf)
    }

    fn poll_flush(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.stream).poll_flush(cx)
    }

    fn poll_shutdown(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.stream).poll_shutdown(cx)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_address_cannot_take_every_line() {
        let places = Arc::new(Places::default());
        let [one, other] = [[192, 168, 1, 9], [192, 168, 1, 10]].map(IpAddr::from);
        let held: Vec<Place> = (0..MOST_FROM_ONE)
            .filter_map(|_| Places::take(&places, one))
            .collect();
        assert_eq!(held.len(), MOST_FROM_ONE);
        assert!(Places::take(&places, one).is_none());
        assert!(Places::take(&places, other).is_some());
        drop(held);
        assert!(Places::take(&places, one).is_some());
    }
}
