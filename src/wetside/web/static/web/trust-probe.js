// Registered for a moment by secure.js: a browser refuses it where it does not trust the certificate. It does nothing.
