/**
 * Whether devices may keep what was seen. LARDER_OFFLINE=no takes it back from every device that comes by; the development server, whose
 * files change under their names, never offers it.
 */
export const isOfflineOffered = (): boolean =>
  process.env.NODE_ENV === 'production' && !['no', '0', 'off', 'false'].includes(process.env.LARDER_OFFLINE?.toLowerCase() ?? '')
