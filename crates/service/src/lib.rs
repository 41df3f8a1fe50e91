//! The daemon: joins adapter, gate, job, journal and local socket.
