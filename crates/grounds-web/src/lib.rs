//! The pages and the API of Grounds, served on this machine only.
//!
//! Nothing is computed here: a [`serve`]d page shows what the network, the plan and their words
//! say of a job, and a button writes a note.

mod config;

pub use config::{Config, LISTEN, ServeError};

/// Serves pages until the process is told to stop, and prints their address on standard output
/// once it answers.
///
/// # Errors
/// When the address is refused or taken, or the data cannot be opened.
pub fn serve(config: Config) -> Result<(), ServeError> {
    let address = config.address()?;
    let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().build()?;
    runtime.block_on(async move {
        let listener = tokio::net::TcpListener::bind(address)
            .await
            .map_err(|error| ServeError::Listen(address, error))?;
        println!("Grounds is at http://{}/", listener.local_addr()?);
        tokio::signal::ctrl_c().await?;
        Ok(())
    })
}
