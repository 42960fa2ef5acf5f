// telegram-test-api, a fake Bot API for polling, with what python-telegram-bot needs of it. node telegram_test_api.js PORT
const Server = require('telegram-test-api');
const format = Server.formatUpdate; // it leaves out chat_instance, which is required
Server.formatUpdate = (update) => {
  const shown = format(update);
  if (shown.callback_query) shown.callback_query.chat_instance = '1';
  return shown;
};
const add = Server.prototype.addBotMessage; // it answers a date in milliseconds
Server.prototype.addBotMessage = function (raw, token) {
  const message = add.call(this, raw, token);
  return { ...message, date: Math.floor(message.date / 1000) };
};
const server = new Server({ host: '127.0.0.1', port: +process.argv[2], storeTimeout: 600 });
server.webServer.use((req, res, next) => {
  const call = /^\/bot([^/]+)\/(\w+)/.exec(req.url);
  if (!call) return next();
  const body = req.body;
  const ok = (result) => res.json({ ok: true, result });
  if (call[2] === 'getMe') return ok({ id: 666, is_bot: true, first_name: 'Test', username: 'TestNameBot' });
  if (call[2] === 'editMessageText') { // it answers null
    server[call[2]](body);
    const chat = { id: +body.chat_id, type: 'private' };
    return ok({ message_id: +body.message_id, date: Math.floor(Date.now() / 1000), chat, text: body.text });
  }
  if (call[2] === 'getUpdates') { // it never waits
    let over = false;
    const done = () => { if (!over) { over = true; clearTimeout(timer); ok(server.getUpdates(call[1])); } };
    const timer = setTimeout(done, 1000 * (+body.timeout || 0));
    res.on('close', () => { over = true; clearTimeout(timer); });
    if (server.storage.userMessages.some((u) => u.botToken === call[1] && !u.isRead)) done();
    else server.waitUserMessage().then(done);
    return;
  }
  next();
});
const stack = server.webServer._router.stack;
stack.splice(6, 0, stack.pop()); // after the body parsers, before the package's own routes
process.on('unhandledRejection', (error) => console.error('webhook delivery failed:', error.message));
server.start().then(() => console.log('up'));
