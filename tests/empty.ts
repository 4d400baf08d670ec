// Stands in for 'server-only', which throws outside the web server.
export {}
