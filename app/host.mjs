/** Whether listening to this address lets other machines in. */
export const isOpenToNetwork = (host) => !/^(localhost|::1|127\.\d{1,3}\.\d{1,3}\.\d{1,3})$/i.test(host)

export const noKeeperSentence = (host) =>
  `Chart Larder was asked to listen to a network (HOST=${host}), and has no account yet, so anybody there could change everything. Make a keeper’s account first, then start it again: npm run account -- --add NAME --role keeper`
