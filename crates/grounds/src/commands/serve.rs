//! `grounds serve`, and `grounds` alone.

use grounds_web::{Config, GivenCertificate, PhonesDoor, ServeError, serve};

use crate::{
    arguments::Serve,
    ending::{Ending, Trouble},
    store::store_trouble,
};

/// Serves the demo house where nothing else was asked for.
pub(super) fn demo() -> Result<Ending, Trouble> {
    start(Config {
        demo: true,
        ..Config::default()
    })
}

pub(super) fn run(asked: &Serve) -> Result<Ending, Trouble> {
    start(Config {
        listen: asked.listen.clone(),
        data: asked.data.data.clone(),
        demo: asked.demo,
        phones: phones(asked),
    })
}

fn phones(asked: &Serve) -> Option<PhonesDoor> {
    let files = asked.certificate.clone().zip(asked.key.clone());
    asked.phones.clone().map(|listen| PhonesDoor {
        listen,
        certificate: files.map(|(certificate, key)| GivenCertificate { certificate, key }),
    })
}

fn start(config: Config) -> Result<Ending, Trouble> {
    match serve(config) {
        Ok(()) => Ok(Ending::Fine),
        Err(ServeError::Data(error)) => Err(store_trouble(&error)),
        Err(
            error @ (ServeError::Address(_)
            | ServeError::NotThisMachine(_)
            | ServeError::PhonesAddress(_)
            | ServeError::NotPrivate(_)
            | ServeError::Certificate { .. }),
        ) => Err(Trouble::Input(error.to_string())),
        Err(error) => Err(Trouble::Failure(error.to_string())),
    }
}
