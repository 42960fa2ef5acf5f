// Starts the whole Hydrogen client on a page. The homeserver is named in the page's address: ?homeserver=URL
import { Platform, createNavigation, createRouter, RootViewModel, FeatureSet } from "hydrogen-view-sdk";

const asset = (name) => "assets/" + name;
const platform = new Platform({
  container: document.body,
  options: {},
  config: { defaultHomeServer: new URLSearchParams(location.search).get("homeserver"), themeManifests: [] },
  assetPaths: {
    downloadSandbox: asset("download-sandbox.html"),
    worker: asset("main.js"),
    serviceWorker: "sw.js",
    olm: { wasm: "olm/olm.wasm", legacyBundle: "olm/olm_legacy.js", wasmBundle: "olm/olm.js" },
  },
});

(async () => {
  const navigation = createNavigation();
  platform.setNavigation(navigation);
  await platform.init();
  const urlRouter = createRouter({ navigation, history: platform.history });
  urlRouter.attach();
  const features = await FeatureSet.load(platform.settingsStorage);
  const model = new RootViewModel({ platform, urlRouter, urlCreator: urlRouter, navigation, features });
  await model.load();
  platform.createAndMountRootView(model);
})().catch((error) => {
  document.body.textContent = error.stack;
});
